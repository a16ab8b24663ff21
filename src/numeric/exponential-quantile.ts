import { log } from "./log.ts";
import { normalCdf } from "./normal-cdf.ts";

/** Below this probability log(1 - p) is taken by its series. */
const smallProbability = 1e-5;

/**
 * Quantile function of the exponential distribution, by standard normal score; accurate in both tails.
 *
 * @param mean > 0
 */
export function exponentialQuantile(mean: number): (z: number) => number {
  return (z) => {
    const below = normalCdf(z);
    if (below < smallProbability) return mean * below * (1 + below * (0.5 + below / 3));
    return -mean * log(normalCdf(-z));
  };
}
