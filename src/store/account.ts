import { stat } from "node:fs/promises";
import { runProgram } from "./run-program.ts";
import type { Account } from "./run-program.ts";

/**
 * The user that Postgres runs as for a data folder; undefined when that is this process's own.
 * Postgres refuses root. Under root it runs as the user who owns the folder, so that a folder first used
 * by an ordinary user stays theirs, else as `nobody`.
 */
export async function accountFor(dataFolder: string): Promise<Account | undefined> {
  if (!runsAsRoot()) return undefined;
  const owner = await stat(dataFolder).catch(() => undefined);
  return owner !== undefined && owner.uid !== 0 ? { uid: owner.uid, gid: owner.gid } : nobody();
}

export function runsAsRoot(): boolean {
  return process.getuid?.() === 0;
}

/** Whether that user can enter a folder: asked of the kernel, which knows modes, lists and mounts alike. */
export async function canEnter(folder: string, account: Account | undefined): Promise<boolean> {
  const entered = runProgram("sh", ["-c", 'cd "$1"', "sh", folder], account);
  return entered.then(
    () => true,
    () => false,
  );
}

async function nobody(): Promise<Account> {
  try {
    const [uid, gid] = await Promise.all([id("-u"), id("-g")]);
    return { uid, gid };
  } catch (cause) {
    throw new Error(
      "Postgres does not run as root, and this system has no user `nobody` to run it as: start as an ordinary user.",
      { cause },
    );
  }
}

/** Some systems print nobody's id as an unsigned 32-bit number; node takes the signed one. */
async function id(which: "-u" | "-g"): Promise<number> {
  return Number(await runProgram("id", [which, "nobody"])) | 0;
}
