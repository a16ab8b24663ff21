import { normalCdf } from "./normal-cdf.ts";
import { requireAscending } from "./require-ascending.ts";

/**
 * Quantile function of the triangular distribution.
 *
 * @param low least value
 * @param mode likeliest value, `low` and `high` included
 * @param high greatest value; equal to `low` gives a constant
 * @returns value at a standard normal score
 * @throws {DomainError} `values-not-ascending` unless low <= mode <= high
 */
export function triangularQuantile(low: number, mode: number, high: number): (z: number) => number {
  requireAscending("low <= mode <= high", low, mode, high);
  if (low === high) return () => low;
  const width = high - low;
  const belowMode = (mode - low) / width;
  return (z) => {
    const below = normalCdf(z);
    if (below < belowMode) return low + Math.sqrt(below * width * (mode - low));
    return high - Math.sqrt(normalCdf(-z) * width * (high - mode));
  };
}
