import { access, mkdtemp, readdir, rename, rm, stat } from "node:fs/promises";
import { basename, dirname, join } from "node:path";

const abandonedAfterMs = 3_600_000;

/**
 * Makes a folder that is there whole or not at all, whoever else makes it at the same time and whenever
 * this process is killed: it is filled under another name beside its place, then renamed.
 *
 * @param marker path inside the folder that tells a whole one
 */
export async function createWhole(
  folder: string,
  marker: string,
  fill: (partial: string) => Promise<void>,
): Promise<void> {
  await removeAbandoned(folder);
  const partial = await mkdtemp(partialPrefix(folder));
  try {
    await fill(partial);
    await rename(partial, folder);
  } catch (error) {
    await rm(partial, { recursive: true, force: true });
    if (!(await isThere(join(folder, marker)))) throw error;
  }
}

/** Whether something is at that path. Not being allowed to look is an error, not an absence. */
export async function isThere(path: string): Promise<boolean> {
  try {
    await access(path);
    return true;
  } catch (error) {
    if (hasCode(error, "ENOENT", "ENOTDIR")) return false;
    throw error;
  }
}

export function hasCode(error: unknown, ...codes: string[]): boolean {
  return error instanceof Error && "code" in error && codes.includes(String(error.code));
}

function partialPrefix(folder: string): string {
  return `${folder}.partial-`;
}

/** Clears what killed processes left behind; an hour old, so never what another process is filling now. */
async function removeAbandoned(folder: string): Promise<void> {
  const prefix = basename(partialPrefix(folder));
  for (const name of await readdir(dirname(folder))) {
    if (!name.startsWith(prefix)) continue;
    const partial = join(dirname(folder), name);
    const { mtimeMs } = await stat(partial).catch(() => ({ mtimeMs: Date.now() }));
    if (Date.now() - mtimeMs > abandonedAfterMs) await rm(partial, { recursive: true, force: true });
  }
}
