import { log } from "./log.ts";
import { log1p } from "./log1p.ts";
import { normalCdf } from "./normal-cdf.ts";

/**
 * Quantile function of the exponential distribution: -mean log(1 - Phi(z)), accurate in both tails.
 *
 * @param mean > 0
 * @returns value at a standard normal score up to 38
 */
export function exponentialQuantile(mean: number): (z: number) => number {
  return (z) => -mean * (z < 0 ? log1p(-normalCdf(z)) : log(normalCdf(-z)));
}
