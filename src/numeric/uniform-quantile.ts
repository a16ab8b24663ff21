import { normalCdf } from "./normal-cdf.ts";
import { requireAscending } from "./require-ascending.ts";

/**
 * Quantile function of the uniform distribution.
 *
 * @param low least value
 * @param high greatest value, at least `low`
 * @returns value at a standard normal score
 * @throws {DomainError} `values-not-ascending` when high < low
 */
export function uniformQuantile(low: number, high: number): (z: number) => number {
  requireAscending("low <= high", low, high);
  const width = high - low;
  return (z) => (z < 0 ? low + width * normalCdf(z) : high - width * normalCdf(-z));
}
