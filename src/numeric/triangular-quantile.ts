import { normalCdf } from "./normal-cdf.ts";

/**
 * Quantile function of the triangular distribution, by standard normal score.
 *
 * @param low smallest value
 * @param mode likeliest value, in [low, high]
 * @param high largest value; equal to `low` gives the constant
 */
export function triangularQuantile(low: number, mode: number, high: number): (z: number) => number {
  const range = high - low;
  if (range === 0) return () => low;
  const rising = (mode - low) / range;
  return (z) => {
    const below = normalCdf(z);
    if (below <= rising) return low + Math.sqrt(below * range * (mode - low));
    return high - Math.sqrt(normalCdf(-z) * range * (high - mode));
  };
}
