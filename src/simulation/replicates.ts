import { chunkCapacity } from "./columns.ts";

/** Independent replicates a simulation of a fixed number of draws is divided into. */
export const replicateCount = 16;

/** A run of draws made together: `key` enters every stream, `start` is its place among all draws. */
export interface Chunk {
  readonly replicate: number;
  readonly key: number;
  readonly start: number;
  readonly count: number;
}

/** Where each replicate begins: length `replicateCount` + 1, the last being the number of draws. */
export function replicateStarts(draws: number): Int32Array {
  return Int32Array.from({ length: replicateCount + 1 }, (_, replicate) =>
    Math.floor((replicate * draws) / replicateCount),
  );
}

/**
 * Divides replicates into chunks of nearly equal size.
 *
 * @param starts where each replicate begins, and the number of draws
 * @returns chunks in the order of their draws; fixed by `starts` alone, so that who draws them never shows
 */
export function chunksOf(starts: Int32Array): Chunk[] {
  const replicates = starts.length - 1;
  return Array.from({ length: replicates }, (_, replicate) => {
    const first = starts[replicate]!;
    const size = starts[replicate + 1]! - first;
    const pieces = Math.ceil(size / chunkCapacity);
    return Array.from({ length: pieces }, (_, piece) => {
      const start = first + Math.floor((piece * size) / pieces);
      const end = first + Math.floor(((piece + 1) * size) / pieces);
      return { replicate, key: replicate + piece * replicates, start, count: end - start };
    });
  }).flat();
}

/** Draws up to which what is paid for each operation is kept in full. */
const mostDrawsWithOperations = replicateCount * chunkCapacity;

/**
 * The draws of which what is paid for each operation is kept: all, or where they are many, the first chunk of each of the
 * first 16 replicates.
 *
 * @param chunks of all draws, in order
 * @returns draws, ascending
 */
export function operationDrawsOf(chunks: readonly Chunk[]): Int32Array {
  const draws = chunks.reduce((sum, { count }) => sum + count, 0);
  const kept = draws <= mostDrawsWithOperations ? chunks : chunks.filter(({ key }) => key < replicateCount);
  return Int32Array.from(
    kept.flatMap(({ start, count }) => Array.from({ length: count }, (_, place) => start + place)),
  );
}
