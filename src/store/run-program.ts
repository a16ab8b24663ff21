import { execFile } from "node:child_process";

/** A user of the operating system, as node's child processes take it. */
export interface Account {
  readonly uid: number;
  readonly gid: number;
}

const isWindows = process.platform === "win32";
const longestRunMs = 120_000;
const mostOutputBytes = 1_000_000;

/**
 * What every program started here runs under: nothing of the caller's locale, PG* variables or current
 * folder (which the account may not be able to enter), so that a start is the same from anywhere.
 * Windows programs need their system's variables, so there they inherit.
 */
export function programSetting(account?: Account) {
  const fixed = isWindows ? {} : { cwd: "/", env: { PATH: "/usr/bin:/bin:/usr/sbin:/sbin" } };
  return { ...fixed, ...account, windowsHide: true };
}

/** Runs a program to its end and gives what it printed; what it said on stderr is in the error. */
export function runProgram(file: string, args: readonly string[], account?: Account): Promise<string> {
  const options = { ...programSetting(account), timeout: longestRunMs, maxBuffer: mostOutputBytes };
  return new Promise((resolve, reject) => {
    execFile(file, args, options, (error, stdout, stderr) => {
      if (error === null) resolve(stdout);
      else reject(new Error(`${file} failed: ${stderr.trim() || error.message}`, { cause: error }));
    });
  });
}
