import { chmod, cp, mkdir, mkdtemp, readdir, readlink, rm, unlink } from "node:fs/promises";
import { tmpdir } from "node:os";
import { dirname, join } from "node:path";
import { afterEach, beforeEach, expect, test } from "vitest";
import { accountFor } from "../../src/store/account.ts";
import { packagedPostgres, runnablePrograms } from "../../src/store/postgres-programs.ts";
import { runProgram } from "../../src/store/run-program.ts";

let top: string;
let native: string;
let spareFolder: string;
beforeEach(async () => {
  top = await mkdtemp(join(tmpdir(), "restoration-programs-"));
  await chmod(top, 0o711);
  const packaged = dirname(await packagedPostgres());
  native = join(top, "package", "native");
  spareFolder = join(top, "spare");
  await mkdir(spareFolder);
  await chmod(spareFolder, 0o755);
  await cp(packaged, join(top, "package"), { recursive: true, verbatimSymlinks: true });
  for (const name of await readdir(join(native, "lib"))) {
    const link = join(native, "lib", name);
    if (await readlink(link).catch(() => undefined)) await unlink(link);
  }
});
afterEach(() => rm(top, { recursive: true, force: true }));

test("runnablePrograms() makes the links an install without scripts leaves out", async () => {
  const account = await accountFor(top + "/nothing");
  const { initdb } = await runnablePrograms(native, () => Promise.resolve(spareFolder), account);
  expect(initdb).toBe(join(native, "bin", "initdb"));
  expect(await runProgram(initdb, ["--version"], account)).toContain("PostgreSQL");
  expect(await readdir(spareFolder)).toEqual([]);
});

test("runnablePrograms() called three times at once makes one copy of programs that cannot run where they are", async () => {
  const account = await accountFor(top + "/nothing");
  await chmod(join(native, "bin", "postgres"), 0o600);
  const calls = [1, 2, 3].map(() => runnablePrograms(native, () => Promise.resolve(spareFolder), account));
  const [first, ...others] = await Promise.all(calls);
  for (const programs of others) expect(programs).toEqual(first);
  expect(await readdir(spareFolder)).toEqual([expect.stringMatching(/^postgres-[\w.-]+$/)]);
  expect(first?.postgres.startsWith(spareFolder)).toBe(true);
  expect(await runProgram(first?.postgres ?? "", ["--version"], account)).toContain("PostgreSQL");
});

test("runnablePrograms() says why programs do not run on this machine", async () => {
  await rm(join(native, "lib"), { recursive: true });
  await mkdir(join(native, "lib"));
  await expect(runnablePrograms(native, () => Promise.resolve(spareFolder), undefined)).rejects.toThrow(
    /does not run on this machine: .*libraries.*DATABASE_URL/s,
  );
});

test("packagedPostgres() names the package that is missing on another kind of machine", async () => {
  const { arch } = process;
  Object.defineProperty(process, "arch", { value: "riscv64" });
  try {
    await expect(packagedPostgres()).rejects.toThrow(/-riscv64, .*is not installed.*DATABASE_URL/);
  } finally {
    Object.defineProperty(process, "arch", { value: arch });
  }
});
