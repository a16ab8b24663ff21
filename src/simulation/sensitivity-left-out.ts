import { jackknifeError } from "../numeric/jackknife-error.ts";
import type { Measured } from "../domain/estimate-result.ts";

/** The same sums over all draws, then over all but those of each replicate: equally long sections of one list. */
export interface PooledSums {
  readonly sums: Float64Array;
  /** Length of a section. */
  readonly size: number;
  /** Sections: one more than replicates. */
  readonly sections: number;
}

/** Makes room for pooled sums. */
export function makePooled(size: number, replicates: number): PooledSums {
  return { sums: new Float64Array(size * (replicates + 1)), size, sections: replicates + 1 };
}

/**
 * Pools sums that were kept by replicate.
 *
 * @param kept replicate x size
 * @param replicates how many
 */
export function poolSums(kept: Float64Array, replicates: number): PooledSums {
  const pooled = makePooled(kept.length / replicates, replicates);
  const { sums, size } = pooled;
  for (let replicate = 0, place = 0; replicate < replicates; replicate++) {
    for (let at = 0; at < size; at++, place++) sums[at] = sums[at]! + kept[place]!;
  }
  for (let replicate = 0, place = 0; replicate < replicates; replicate++) {
    for (let at = 0; at < size; at++, place++) sums[size + place] = sums[at]! - kept[place]!;
  }
  return pooled;
}

/**
 * Measures a figure that follows from sums: its value on all draws, its error from what it comes to without each
 * replicate.
 *
 * @param replicates how many
 * @param figure of a section: 0 for all draws, then all but those of each replicate
 */
export function measureSections(replicates: number, figure: (section: number) => number): Measured {
  const leftOut = new Float64Array(replicates);
  for (let replicate = 0; replicate < replicates; replicate++) leftOut[replicate] = figure(replicate + 1);
  return { value: figure(0), standardError: jackknifeError(leftOut) };
}
