import { chmod, chown, mkdir, mkdtemp, rm, stat, symlink } from "node:fs/promises";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterEach, beforeEach, expect, test } from "vitest";
import { accountFor, runsAsRoot } from "../../src/store/account.ts";
import { makeSafeFolder } from "../../src/store/safe-folder.ts";

let top: string;
let folder: string;
beforeEach(async () => {
  top = await mkdtemp(join(tmpdir(), "restoration-safe-"));
  folder = join(top, "folder");
});
afterEach(() => rm(top, { recursive: true, force: true }));

test("makeSafeFolder() makes a folder with its mode and owner, and takes it as it is the next time", async () => {
  const account = await accountFor(folder);
  await Promise.all([1, 2].map(() => makeSafeFolder(folder, 0o700, account)));
  await makeSafeFolder(folder, 0o700, account);
  const { mode, uid } = await stat(folder);
  expect([mode & 0o777, uid]).toEqual([0o700, account?.uid ?? process.getuid?.()]);
});

test("makeSafeFolder() refuses a folder that others can write into, or that is a link", async () => {
  await mkdir(folder);
  await chmod(folder, 0o777);
  await expect(makeSafeFolder(folder, 0o755)).rejects.toThrow(/must be .* mode 755, and is .* mode 777/);
  await symlink(top, join(top, "link"));
  await expect(makeSafeFolder(join(top, "link"), 0o700)).rejects.toThrow(/must be/);
});

test("makeSafeFolder() refuses a folder of another user", async () => {
  await mkdir(folder, { mode: 0o700 });
  if (runsAsRoot()) await chown(folder, 12345, 12345);
  const theirs = runsAsRoot() ? folder : "/etc";
  await expect(makeSafeFolder(theirs, 0o755)).rejects.toThrow(/remove it and start again/);
});
