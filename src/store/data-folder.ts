import { createHash } from "node:crypto";
import { chown, mkdir, realpath } from "node:fs/promises";
import { basename, dirname, join, resolve } from "node:path";
import { accountFor, canEnter, runsAsRoot } from "./account.ts";
import type { Account } from "./run-program.ts";
import type { PostgresPrograms } from "./postgres-programs.ts";
import { runProgram } from "./run-program.ts";
import { makeSafeFolder } from "./safe-folder.ts";
import { createWhole, isThere } from "./whole-folder.ts";

/** Where one embedded Postgres lives. */
export interface DataPlace {
  /** The data folder itself, as a real absolute path. */
  readonly dataFolder: string;
  /** Makes, when first needed, a folder only this user writes into, for whatever else must be kept. */
  spareFolder(): Promise<string>;
  /** Who Postgres runs as; undefined for the user of this process. */
  readonly account: Account | undefined;
}

/**
 * Decides where the data lives: where it was asked for, or, under root, in a folder of its own below
 * `systemFolder` when the account Postgres runs as cannot get there (a checkout under a closed home).
 * A place that holds data is never left for another, whatever has become reachable since.
 */
export async function placeData(wanted: string, systemFolder: string): Promise<DataPlace> {
  await mkdir(dirname(resolve(wanted)), { recursive: true });
  const asked = join(await realpath(dirname(resolve(wanted))), basename(wanted));
  if (!runsAsRoot()) {
    return { dataFolder: asked, spareFolder: () => Promise.resolve(dirname(asked)), account: undefined };
  }
  const spareFolder = () => makeSafeFolder(systemFolder, 0o755);
  const dataFolder = await placeForRoot(asked, join(systemFolder, shortHash(asked)));
  if (dataFolder !== asked) await spareFolder();
  const account = await accountFor(dataFolder);
  if (!(await canEnter(dirname(dataFolder), account))) {
    throw new Error(
      `User ${account?.uid}, who runs Postgres, cannot get to the data in ${dataFolder}: open the folders on the way.`,
    );
  }
  return { dataFolder, spareFolder, account };
}

/** A short name that stands for a path. */
export function shortHash(path: string): string {
  return createHash("sha256").update(path).digest("hex").slice(0, 16);
}

/** Makes the data folder unless it is there. */
export async function initialiseData(
  { dataFolder, account }: DataPlace,
  { initdb }: PostgresPrograms,
): Promise<void> {
  if (await isThere(join(dataFolder, marker))) return;
  await createWhole(dataFolder, marker, async (partial) => {
    if (account) await chown(partial, account.uid, account.gid);
    await runProgram(initdb, ["-D", partial, ...initialSettings], account);
  });
}

const marker = "PG_VERSION";

/**
 * Trust, because the socket's folder lets nobody else in. Postgres' own C.UTF-8 rather than the
 * system's, which some systems lack: the same order and case rules everywhere.
 */
const initialSettings = [
  "--username=postgres",
  "--auth=trust",
  "--encoding=UTF8",
  "--locale=C",
  "--locale-provider=builtin",
  "--builtin-locale=C.UTF-8",
];

async function placeForRoot(asked: string, hidden: string): Promise<string> {
  if (await isThere(join(asked, marker))) return asked;
  if (await isThere(join(hidden, marker))) return hidden;
  return (await canEnter(dirname(asked), await accountFor(asked))) ? asked : hidden;
}
