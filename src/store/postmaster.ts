import { readFile } from "node:fs/promises";
import { join } from "node:path";
import { runProgram } from "./run-program.ts";
import { hasCode } from "./whole-folder.ts";

/** What a data folder's postmaster.pid says. */
export interface Postmaster {
  readonly pid: number;
  /** Whether that process is this folder's server still, rather than dead or another program by now. */
  readonly isRunning: boolean;
  /** Where it listens, host being the socket's folder or an address; undefined before it does. */
  readonly address: { readonly host: string; readonly port: number } | undefined;
}

/**
 * Reads which server has a data folder open, or had when it was killed.
 *
 * @see https://www.postgresql.org/docs/current/storage-file-layout.html (postmaster.pid)
 */
export async function readPostmaster(dataFolder: string): Promise<Postmaster | undefined> {
  const lines = await readLines(join(dataFolder, "postmaster.pid"));
  if (lines === undefined) return undefined;
  const [first, , , port, socketFolder, tcpAddress] = lines;
  const pid = Number(first);
  const host = socketFolder || tcpAddress;
  return {
    pid,
    isRunning: pid > 0 && (await isServerOf(dataFolder, pid)),
    address: host ? { host, port: Number(port) } : undefined,
  };
}

async function readLines(file: string): Promise<string[] | undefined> {
  try {
    return (await readFile(file, "utf8")).split(/\r?\n/);
  } catch (error) {
    if (hasCode(error, "ENOENT", "ENOTDIR")) return undefined;
    throw error;
  }
}

/** A server is started with `-D`, its folder's real path and more, and keeps that command line. */
async function isServerOf(dataFolder: string, pid: number): Promise<boolean> {
  const line = await commandLine(pid).catch(() => "");
  return process.platform === "win32" ? line.includes("postgres") : line.includes(` -D ${dataFolder} `);
}

async function commandLine(pid: number): Promise<string> {
  switch (process.platform) {
    case "linux":
      return (await readFile(`/proc/${pid}/cmdline`, "utf8")).replaceAll("\0", " ");
    case "win32":
      return await runProgram("tasklist", ["/FI", `PID eq ${pid}`, "/NH"]);
    default:
      return await runProgram("ps", ["-ww", "-o", "command=", "-p", String(pid)]);
  }
}
