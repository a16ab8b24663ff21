import { normalQuantile } from "./normal-quantile.ts";
import { studentFromZ } from "./student-from-z.ts";

/**
 * Quantile of Student's t distribution.
 *
 * @param probability in (0, 1); those closer to an end than 1.1e-18 count as that
 * @param freedom degrees of freedom, real, in [1, 1e6]
 * @returns t with P(T <= t) = probability
 * @throws {DomainError} `probability-out-of-range`, `freedom-out-of-range`
 */
export function studentQuantile(probability: number, freedom: number): number {
  return studentFromZ(freedom)(normalQuantile(probability));
}
