import { exp } from "./exp.ts";
import { normalQuantile } from "./normal-quantile.ts";
import { studentFromZ } from "./student-from-z.ts";

const greatestScore = normalQuantile(0.999);

/**
 * Quantile function of a value whose logarithm has Student's t distribution, clipped so that its mean exists: probabilities
 * below .001 count as .001, those above .999 as .999.
 *
 * @param location median of the logarithm
 * @param scale of the logarithm, >= 0
 * @param freedom degrees of freedom, real, in [1, 1e6]
 * @returns value at a standard normal score
 * @throws {DomainError} `freedom-out-of-range`
 */
export function logStudentQuantile(location: number, scale: number, freedom: number): (z: number) => number {
  const student = studentFromZ(freedom);
  return (z) => exp(location + scale * student(Math.max(-greatestScore, Math.min(greatestScore, z))));
}
