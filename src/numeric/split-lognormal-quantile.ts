import { exp } from "./exp.ts";
import { log } from "./log.ts";
import { score90 } from "./score-90.ts";

/**
 * Quantile function of a lognormal above a floor whose spread differs below and above the median, through three
 * percentiles: floor + exp(m + s z), by standard normal score.
 *
 * @param p10 tenth percentile, > floor
 * @param p50 median, > p10
 * @param p90 ninetieth percentile, > p50
 * @param floor value no draw falls below
 */
export function splitLognormalQuantile(
  p10: number,
  p50: number,
  p90: number,
  floor: number,
): (z: number) => number {
  const middle = log(p50 - floor);
  const spreadBelow = (middle - log(p10 - floor)) / score90;
  const spreadAbove = (log(p90 - floor) - middle) / score90;
  return (z) => floor + (p50 - floor) * exp((z < 0 ? spreadBelow : spreadAbove) * z);
}
