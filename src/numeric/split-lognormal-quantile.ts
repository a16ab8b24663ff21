import { DomainError } from "./domain-error.ts";
import { exp } from "./exp.ts";
import { log } from "./log.ts";
import { score90 } from "./score-90.ts";

/**
 * Quantile function through three percentiles: lognormal above a floor, with one spread below the median and another above.
 *
 * x = floor + (p50 - floor) e^(s z), s set by p10 where z < 0 and by p90 elsewhere.
 *
 * @param p10 value that 10 % lie below, > floor
 * @param p50 median, > p10
 * @param p90 value that 90 % lie below, > p50
 * @param floor no value lies below
 * @returns value at a standard normal score
 * @throws {DomainError} `percentiles-not-ascending` unless floor < p10 < p50 < p90
 */
export function splitLognormalQuantile(
  p10: number,
  p50: number,
  p90: number,
  floor: number,
): (z: number) => number {
  if (!(floor < p10 && p10 < p50 && p50 < p90)) {
    throw new DomainError(
      "percentiles-not-ascending",
      `floor < p10 < p50 < p90: not so for ${floor}, ${p10}, ${p50}, ${p90}`,
    );
  }
  const median = p50 - floor;
  const spreadBelow = log((p10 - floor) / median) / -score90;
  const spreadAbove = log((p90 - floor) / median) / score90;
  return (z) => floor + median * exp((z < 0 ? spreadBelow : spreadAbove) * z);
}
