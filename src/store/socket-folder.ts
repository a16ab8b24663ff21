import { tmpdir } from "node:os";
import { join } from "node:path";
import { shortHash } from "./data-folder.ts";
import type { DataPlace } from "./data-folder.ts";
import { makeSafeFolder } from "./safe-folder.ts";

const port = 5432;
const longestPathBytes = 100;

/**
 * The folder of the server's socket, which only the account that runs it (and root) can enter: the data
 * folder, or where that path is longer than a socket's address may be (104 bytes on some systems), a
 * short one named after it.
 */
export async function socketFolder(place: DataPlace): Promise<{ host: string; port: number }> {
  if (isShortEnough(place.dataFolder)) return { host: place.dataFolder, port };
  const name = `restoration-${shortHash(place.dataFolder)}`;
  const parents = place.account ? [await place.spareFolder()] : [tmpdir(), "/tmp"];
  const folder = parents.map((parent) => join(parent, name)).find(isShortEnough);
  if (folder === undefined)
    throw new Error(`No folder with a path short enough for a socket: ${parents.join(", ")}`);
  await makeSafeFolder(folder, 0o700, place.account);
  return { host: folder, port };
}

function isShortEnough(folder: string): boolean {
  return Buffer.byteLength(join(folder, `.s.PGSQL.${port}`)) < longestPathBytes;
}
