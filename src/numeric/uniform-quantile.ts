import { normalCdf } from "./normal-cdf.ts";

/**
 * Quantile function of the uniform distribution, by standard normal score.
 *
 * @param low smallest value
 * @param high largest value, >= low
 */
export function uniformQuantile(low: number, high: number): (z: number) => number {
  return (z) => low + (high - low) * normalCdf(z);
}
