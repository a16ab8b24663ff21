import { exp } from "./exp.ts";

/**
 * Quantile function of the lognormal distribution.
 *
 * @param logMean mean of the logarithm
 * @param logSd standard deviation of the logarithm, >= 0
 * @returns value at a standard normal score
 */
export function lognormalQuantile(logMean: number, logSd: number): (z: number) => number {
  return (z) => exp(logMean + logSd * z);
}
