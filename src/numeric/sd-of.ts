import { covariance } from "./covariance.ts";

/**
 * Sample standard deviation of a stretch of values.
 *
 * @param values any length
 * @param start first index
 * @param end one past the last index, > start + 1
 * @returns root of the sum of squared deviations / (n - 1); exactly 0 when all are equal
 */
export function sdOf(values: Float64Array, start: number, end: number): number {
  return Math.sqrt(covariance(values, values, start, end));
}
