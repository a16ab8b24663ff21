import { exp } from "./exp.ts";
import { log } from "./log.ts";

/**
 * One-sided upper bound on the probability of an event that never happened.
 *
 * @param count independent draws in which it did not happen, >= 1
 * @param confidence in (0, 1)
 * @returns the probability at which so long a silence has the chance 1 - confidence: about 3 / count at 95 %
 * @see Clopper & Pearson 1934
 */
export function binomialBound(count: number, confidence: number): number {
  return 1 - exp(log(1 - confidence) / count);
}
