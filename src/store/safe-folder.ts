import { chmod, chown, lstat, mkdir } from "node:fs/promises";
import type { Account } from "./run-program.ts";
import { hasCode } from "./whole-folder.ts";

/**
 * Makes a folder unless it is there, and refuses one that somebody else made or could write into: a name
 * under a shared folder such as /tmp can be taken beforehand by anyone.
 *
 * @returns the folder
 * @param mode 0o700, or 0o755 for one that others read
 */
export async function makeSafeFolder(folder: string, mode: number, account?: Account): Promise<string> {
  await mkdir(folder, { mode: 0o700 }).catch((error: unknown) => {
    if (!hasCode(error, "EEXIST")) throw error;
  });
  const found = await lstat(folder);
  // Another process of ours may be between making it and giving it away.
  const isOurs = [process.getuid?.(), account?.uid].includes(found.uid) || process.platform === "win32";
  if (!found.isDirectory() || !isOurs || (found.mode & 0o777 & ~mode) !== 0) {
    const owner = account?.uid ?? process.getuid?.();
    const mine = `a folder of user ${owner} with mode ${mode.toString(8)}`;
    const theirs = `of user ${found.uid} with mode ${(found.mode & 0o777).toString(8)}`;
    throw new Error(`${folder} must be ${mine}, and is ${theirs}: remove it and start again.`);
  }
  await chmod(folder, mode);
  if (account) await chown(folder, account.uid, account.gid);
  return folder;
}
