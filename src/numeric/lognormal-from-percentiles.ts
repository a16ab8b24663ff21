import { log } from "./log.ts";
import { score90 } from "./score-90.ts";

/**
 * The lognormal distribution through two percentiles.
 *
 * @param p10 value that 10 % lie below, > 0
 * @param p90 value that 90 % lie below, at least `p10`
 * @returns mean and standard deviation of the logarithm
 */
export function lognormalFromPercentiles(p10: number, p90: number): { logMean: number; logSd: number } {
  return { logMean: (log(p10) + log(p90)) / 2, logSd: log(p90 / p10) / (2 * score90) };
}
