import { spawn } from "node:child_process";
import type { ChildProcess } from "node:child_process";
import { once } from "node:events";
import { open, readFile } from "node:fs/promises";
import { createServer } from "node:net";
import type { DataPlace } from "./data-folder.ts";
import type { PostgresPrograms } from "./postgres-programs.ts";
import { programSetting } from "./run-program.ts";
import { socketFolder } from "./socket-folder.ts";

/**
 * Starts the server in a session of its own, so that Ctrl-C in the terminal reaches this process only,
 * which then stops it in order.
 *
 * @param stalePid the process that postmaster.pid names although it is not this folder's server. Told in
 *   PG_GRANDPARENT_PID, Postgres does not take it for a rival, and keeps its other guard: shared memory
 *   that a killed server's remaining children still use. Removing the file would lose that.
 */
export async function spawnServer(
  place: DataPlace,
  programs: PostgresPrograms,
  stalePid: number | undefined,
): Promise<ChildProcess> {
  const setting = programSetting(place.account);
  const stale = stalePid !== undefined && setting.env && { PG_GRANDPARENT_PID: String(stalePid) };
  const log = await open(logFile(place), "a", 0o600);
  const listening = await listenSettings(place);
  const child = spawn(programs.postgres, ["-D", place.dataFolder, ...quietSettings, ...listening], {
    ...setting,
    ...(stale && { env: { ...setting.env, ...stale } }),
    detached: true,
    stdio: ["ignore", log.fd, log.fd],
  });
  child.unref();
  try {
    await once(child, "spawn");
  } finally {
    await log.close();
  }
  return child;
}

/** The log tells of the server's life only: statements that fail are told to who sent them. */
const quietSettings = ["-c", "log_min_messages=log", "-c", "log_checkpoints=off"];

/** Node cannot reach a unix socket on Windows: there it is the loopback address and a free port. */
async function listenSettings(place: DataPlace): Promise<string[]> {
  if (process.platform === "win32") {
    return ["-c", "listen_addresses=127.0.0.1", "-k", "", "-p", String(await freePort())];
  }
  const { host, port } = await socketFolder(place);
  // -k takes a list: quotes keep a comma in the path from parting it.
  return ["-c", "listen_addresses=", "-k", `"${host.replaceAll('"', '""')}"`, "-p", String(port)];
}

async function freePort(): Promise<number> {
  const server = createServer().listen(0, "127.0.0.1");
  await once(server, "listening");
  const address = server.address();
  server.close();
  return typeof address === "object" && address !== null ? address.port : 0;
}

function logFile(place: DataPlace): string {
  return `${place.dataFolder}.log`;
}

/** The last lines the server wrote, for the error when it does not start. */
export async function endOfLog(place: DataPlace): Promise<string> {
  const log = await readFile(logFile(place), "utf8").catch(() => "(no log)");
  return log.trimEnd().split("\n").slice(-6).join("\n");
}
