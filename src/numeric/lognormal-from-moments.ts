import { log } from "./log.ts";
import { log1p } from "./log1p.ts";

/**
 * The lognormal distribution with a given mean and standard deviation.
 *
 * @param mean > 0
 * @param sd >= 0, in the unit of the mean
 * @returns mean and standard deviation of the logarithm
 */
export function lognormalFromMoments(mean: number, sd: number): { logMean: number; logSd: number } {
  const logVariance = log1p((sd / mean) * (sd / mean));
  return { logMean: log(mean) - logVariance / 2, logSd: Math.sqrt(logVariance) };
}
