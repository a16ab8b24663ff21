import { meanOf } from "./mean-of.ts";

/**
 * Sample covariance of two columns over the same stretch, summed in order about their means.
 *
 * @param a one column
 * @param b the other, or the same for the variance
 * @param start first index
 * @param end one past the last index, > start + 1
 * @returns sum of products of deviations / (n - 1); exactly 0 when either column is constant
 */
export function covariance(a: Float64Array, b: Float64Array, start: number, end: number): number {
  const meanA = meanOf(a, start, end);
  const meanB = meanOf(b, start, end);
  let sum = 0;
  for (let index = start; index < end; index++) sum += (a[index]! - meanA) * (b[index]! - meanB);
  return sum / (end - start - 1);
}
