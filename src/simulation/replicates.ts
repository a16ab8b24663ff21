import { chunkCapacity } from "./columns.ts";

/** Independent replicates every simulation is divided into. */
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
 * Divides draws into replicates and those into chunks of nearly equal size.
 *
 * @param draws in all
 * @returns chunks in the order of their draws; fixed by `draws` alone, so that who computes them never shows
 */
export function chunksOf(draws: number): Chunk[] {
  const starts = replicateStarts(draws);
  const chunks: Chunk[] = [];
  for (let replicate = 0; replicate < replicateCount; replicate++) {
    const first = starts[replicate]!;
    const size = starts[replicate + 1]! - first;
    const pieces = Math.ceil(size / chunkCapacity);
    for (let piece = 0; piece < pieces; piece++) {
      const start = first + Math.floor((piece * size) / pieces);
      const end = first + Math.floor(((piece + 1) * size) / pieces);
      chunks.push({ replicate, key: replicate + piece * replicateCount, start, count: end - start });
    }
  }
  return chunks;
}
