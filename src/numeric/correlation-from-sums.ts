import { roundingShare } from "./rounding-share.ts";

/**
 * Pearson's correlation of n pairs (x, y) from their sums, which are taken about centres near the means, so that nothing
 * cancels. Of ranks, with ties at their mid-rank, it is Spearman's.
 *
 * @param n pairs, > 0
 * @param x sum of x
 * @param xx sum of x^2
 * @param y sum of y
 * @param yy sum of y^2
 * @param xy sum of x y
 * @returns in [-1, 1]; 0 when either does not vary
 * @see Spearman 1904, "The proof and measurement of association between two things"
 */
export function correlationFromSums(
  n: number,
  x: number,
  xx: number,
  y: number,
  yy: number,
  xy: number,
): number {
  const varianceX = xx - (x * x) / n;
  const varianceY = yy - (y * y) / n;
  if (!(varianceX > roundingShare * xx && varianceY > roundingShare * yy)) return 0;
  const correlation = (xy - (x * y) / n) / Math.sqrt(varianceX * varianceY);
  return Math.max(-1, Math.min(1, correlation));
}
