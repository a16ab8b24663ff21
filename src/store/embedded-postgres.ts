import type { ChildProcess } from "node:child_process";
import { setTimeout as sleep } from "node:timers/promises";
import type pg from "pg";
import { initialiseData, placeData } from "./data-folder.ts";
import type { DataPlace } from "./data-folder.ts";
import { packagedPostgres, runnablePrograms } from "./postgres-programs.ts";
import type { PostgresPrograms } from "./postgres-programs.ts";
import { readPostmaster } from "./postmaster.ts";
import { arrive, leave } from "./presence.ts";
import type { EmbeddedConnection } from "./presence.ts";
import { runProgram } from "./run-program.ts";
import { endOfLog, spawnServer } from "./spawn-server.ts";

const longestStartMs = 60_000;
const longestStopSeconds = 60;
const mostFailedStarts = 6;
const afterFailedStartMs = 250;
const betweenLooksMs = 20;
const administrator = { user: "postgres", database: "postgres", ssl: false } as const;

/** A running embedded Postgres, as one of its users sees it. */
export interface EmbeddedPostgres {
  readonly connection: EmbeddedConnection;
  /** Where the data really is: not always where it was asked for, see `placeData`. */
  readonly dataFolder: string;
  /** Whether it ran already: another process's, or left by one that was killed. */
  readonly adopted: boolean;
  /** Leaves the server, and stops it in order when no other process uses it. */
  stop(): Promise<void>;
}

/**
 * Starts a Postgres on a data folder of its own, making the folder first if need be, or joins the one
 * that has the folder open. Whoever leaves last stops it; a process that is killed leaves it running,
 * for the next start to adopt.
 *
 * @param options.dataFolder where the data should live
 * @param options.systemFolder under root only: where what the account cannot reach is put instead
 */
export async function startEmbeddedPostgres({
  dataFolder,
  systemFolder = "/var/lib/restoration-reckoner",
}: {
  dataFolder: string;
  systemFolder?: string;
}): Promise<EmbeddedPostgres> {
  const place = await placeData(dataFolder, systemFolder);
  const programs = await runnablePrograms(await packagedPostgres(), place.spareFolder, place.account);
  await initialiseData(place, programs);
  const { connection, session, adopted } = await startOrJoin(place, programs);
  let stopped: Promise<void> | undefined;
  return {
    connection,
    dataFolder: place.dataFolder,
    adopted,
    stop: () => (stopped ??= stopWhenLast(session, place, programs)),
  };
}

interface Joined {
  readonly connection: EmbeddedConnection;
  readonly session: pg.Client;
  readonly adopted: boolean;
}

/**
 * Looks, joins or starts, and looks again: every race (two starters, a start during another's stop, a
 * server still recovering) ends in one of the looks.
 */
async function startOrJoin(place: DataPlace, programs: PostgresPrograms): Promise<Joined> {
  const deadline = Date.now() + longestStartMs;
  let started: ChildProcess | undefined;
  let failedStarts = 0;
  let lastError: unknown;
  while (Date.now() < deadline) {
    const postmaster = await readPostmaster(place.dataFolder);
    if (postmaster?.isRunning) {
      const connection = postmaster.address && { ...postmaster.address, ...administrator };
      try {
        if (connection)
          return { connection, session: await arrive(connection), adopted: postmaster.pid !== started?.pid };
      } catch (error) {
        lastError = error;
      }
    } else if (started === undefined || started.exitCode !== null || started.signalCode !== null) {
      if (started !== undefined && started.exitCode !== 0) {
        if (++failedStarts === mostFailedStarts) break;
        await sleep(afterFailedStartMs);
      }
      started = await spawnServer(place, programs, postmaster?.pid);
    }
    await sleep(betweenLooksMs);
  }
  throw new Error(`Postgres did not start on ${place.dataFolder}. Its log ends:\n${await endOfLog(place)}`, {
    cause: lastError,
  });
}

async function stopWhenLast(session: pg.Client, place: DataPlace, programs: PostgresPrograms): Promise<void> {
  try {
    if (!(await leave(session))) return;
    const bounds = ["-w", "-t", String(longestStopSeconds)];
    await runProgram(
      programs.pgCtl,
      ["stop", "-D", place.dataFolder, "-m", "fast", "-s", ...bounds],
      place.account,
    );
  } finally {
    await session.end().catch(() => undefined);
  }
}
