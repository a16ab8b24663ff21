import { exp } from "./exp.ts";
import { normalCdf } from "./normal-cdf.ts";
import { studentQuantile } from "./student-quantile.ts";

/** Probabilities are clipped to [.001, .999], or no moment would be finite. */
const outermost = 0.001;

/**
 * Quantile function of a variable whose logarithm follows Student's t, by standard normal score.
 *
 * @param location of the logarithm
 * @param scale of the logarithm, >= 0
 * @param freedom degrees of freedom, >= 3
 */
export function logStudentQuantile(location: number, scale: number, freedom: number): (z: number) => number {
  return (z) => {
    const lower = Math.max(outermost, normalCdf(-Math.abs(z)));
    const t = studentQuantile(lower, freedom);
    return exp(location + scale * (z < 0 ? t : -t));
  };
}
