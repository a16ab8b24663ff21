import { normalQuantile } from "./normal-quantile.ts";

/**
 * The score above which an event of a given probability happens.
 *
 * @param probability in [0, 1]
 * @returns t with P(Z > t) = probability: Infinity for 0, -Infinity for 1
 * @throws {DomainError} `probability-out-of-range` outside [0, 1] and for NaN
 */
export function eventThreshold(probability: number): number {
  return -normalQuantile(probability);
}
