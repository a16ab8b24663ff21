import { log } from "./log.ts";

/**
 * Parameters of the lognormal with a given mean and standard deviation.
 *
 * @param mean > 0
 * @param sd >= 0
 * @returns mean and standard deviation of the logarithm
 */
export function lognormalFromMoments(mean: number, sd: number): { logMean: number; logSd: number } {
  const ratio = sd / mean;
  const variance = log(1 + ratio * ratio);
  return { logMean: log(mean) - variance / 2, logSd: Math.sqrt(variance) };
}
