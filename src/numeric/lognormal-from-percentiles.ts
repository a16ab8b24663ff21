import { log } from "./log.ts";
import { score90 } from "./score-90.ts";

/**
 * Parameters of the lognormal with two given percentiles.
 *
 * @param p10 tenth percentile, > 0
 * @param p90 ninetieth percentile, > p10
 * @returns mean and standard deviation of the logarithm
 */
export function lognormalFromPercentiles(p10: number, p90: number): { logMean: number; logSd: number } {
  return { logMean: (log(p10) + log(p90)) / 2, logSd: (log(p90) - log(p10)) / (2 * score90) };
}
