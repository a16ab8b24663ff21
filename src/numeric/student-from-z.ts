import { DomainError } from "./domain-error.ts";
import { exp } from "./exp.ts";
import { logitBetaQuantile } from "./logit-beta-quantile.ts";
import { polynomial } from "./polynomial.ts";

/** 1/13!, 1/11!, ... 1/1!. */
const inverseOddFactorials = [1 / 6227020800, 1 / 39916800, 1 / 362880, 1 / 5040, 1 / 120, 1 / 6, 1];

/**
 * Student's t as a function of the standard normal score of equal probability.
 *
 * Where x has the beta distribution with both parameters freedom / 2 and y is its logit, t = sqrt(freedom) sinh(y / 2).
 *
 * @param freedom degrees of freedom, real, in [1, 1e6]
 * @returns t at a score, within 1e-12 of it up to freedom 1 000, within freedom * 1e-15 * (1 + |t|) above; scores beyond
 * +-8.75 count as +-8.75
 * @throws {DomainError} `freedom-out-of-range`
 */
export function studentFromZ(freedom: number): (z: number) => number {
  if (!(freedom >= 1 && freedom <= 1e6)) {
    throw new DomainError("freedom-out-of-range", `freedom ${freedom} is not in [1, 1e6]`);
  }
  const scale = Math.sqrt(freedom);
  const logit = logitBetaQuantile(freedom / 2, freedom / 2);
  return (z) => scale * sinh(logit(z) / 2);
}

function sinh(x: number): number {
  if (Math.abs(x) < 0.5) return x * polynomial(inverseOddFactorials, x * x);
  return (exp(x) - exp(-x)) / 2;
}
