import { rowStride } from "./draw-rows.ts";

/** Places a stretch takes: sums of the rank and its square, then of its products with three columns. */
export const productStride = 5;

/**
 * Adds up something's ranks, their squares and their products with the last three columns of rows, stretch by stretch, in
 * the order of the draws. What lies in one cell has one rank. Sums of n terms in double precision: relative error below
 * n 2^-53 of the sum of their sizes.
 *
 * @param cells by draw, what it is sorted into
 * @param rankOf by cell, about their mean
 * @param starts where each stretch begins, and the end
 * @param rows see `layRows`
 * @returns stretch x (rank, rank^2, rank p, rank q, rank r)
 */
export function sumRankProducts(
  cells: Uint16Array,
  rankOf: Float64Array,
  starts: Int32Array,
  rows: Float64Array,
): Float64Array {
  const sums = new Float64Array((starts.length - 1) * productStride);
  for (let stretch = 0; stretch < starts.length - 1; stretch++) {
    const end = starts[stretch + 1]!;
    let x = 0;
    let xx = 0;
    let xp = 0;
    let xq = 0;
    let xr = 0;
    for (let draw = starts[stretch]!; draw < end; draw++) {
      const rank = rankOf[cells[draw]!]!;
      const row = draw * rowStride;
      x += rank;
      xx += rank * rank;
      xp += rank * rows[row + 3]!;
      xq += rank * rows[row + 4]!;
      xr += rank * rows[row + 5]!;
    }
    const place = stretch * productStride;
    sums[place] = x;
    sums[place + 1] = xx;
    sums[place + 2] = xp;
    sums[place + 3] = xq;
    sums[place + 4] = xr;
  }
  return sums;
}
