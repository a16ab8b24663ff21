import { chmod, chown, mkdir, mkdtemp, readdir, rm } from "node:fs/promises";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterAll, beforeAll, expect, test } from "vitest";
import { accountFor, runsAsRoot } from "../../src/store/account.ts";
import type { Account } from "../../src/store/run-program.ts";
import { runProgram } from "../../src/store/run-program.ts";
import { copySmallCheckout } from "./fixtures/small-checkout.ts";
import { startHolder } from "./holder.ts";

let top: string;
beforeAll(async () => {
  top = await mkdtemp(join(tmpdir(), "restoration-home-"));
  await chmod(top, 0o711);
});
afterAll(() => rm(top, { recursive: true, force: true }));

/** A checkout in a home that only its user can enter, the package's links not made. */
async function closedHome(name: string, account: Account | undefined): Promise<string> {
  const checkout = join(top, name, "checkout");
  await mkdir(join(top, name), { mode: 0o700 });
  await copySmallCheckout(checkout);
  await runProgram("find", [checkout, "-path", "*/native/lib/*", "-type", "l", "-delete"]);
  if (account) {
    await runProgram("chown", ["-R", `${account.uid}:${account.gid}`, checkout]);
    await chown(join(top, name), account.uid, account.gid);
  }
  return checkout;
}

test("an embedded Postgres works in this user's closed home, as root too, and keeps its data", async () => {
  const root = await closedHome("own", undefined);
  const systemFolder = join(top, "system");
  const asked = join(root, ".data", "postgres");
  for (const statement of ["create table kept as select 42 as answer", "select answer from kept"]) {
    const holder = await startHolder(asked, systemFolder, { root });
    // Root's home is closed to the user who runs Postgres for root: there the data lives elsewhere.
    expect(holder.server.dataFolder.startsWith(runsAsRoot() ? systemFolder : asked)).toBe(true);
    expect(await holder.ask(statement)).toEqual(statement.startsWith("create") ? [] : [{ answer: 42 }]);
    expect(await holder.leave()).toBe(0);
  }
  if (!runsAsRoot()) return;
  const kept = (await readdir(systemFolder)).map((name) => name.replace(/[0-9a-f]{16}/, "HASH")).sort();
  expect(kept).toEqual(["HASH", "HASH.log", expect.stringMatching(/^postgres-\d/)]);
});

// Under root that is another user than the one of the tests; else the same one again.
test("an embedded Postgres works in an ordinary user's closed home", async () => {
  const account = await accountFor(join(top, "nothing"));
  const root = await closedHome("ordinary", account);
  const asked = join(root, ".data", "postgres");
  const holder = await startHolder(asked, join(top, "unused"), { root, account });
  expect(holder.server.dataFolder).toBe(asked);
  expect(await holder.ask("select 1 as one")).toEqual([{ one: 1 }]);
  expect(await holder.leave()).toBe(0);
  await expect(readdir(join(top, "unused"))).rejects.toMatchObject({ code: "ENOENT" });
});
