import { DomainError } from "./domain-error.ts";
import { log } from "./log.ts";
import { polynomial } from "./polynomial.ts";

const centralHalfWidth = 0.425;
const middleEnd = 5;

/** Coefficients of the three rational approximations, highest power first. */
const centralAbove = [
  2.5090809287301226727e3, 3.3430575583588128105e4, 6.7265770927008700853e4, 4.5921953931549871457e4,
  1.3731693765509461125e4, 1.9715909503065514427e3, 1.3314166789178437745e2, 3.387132872796366608,
];
const centralBelow = [
  5.226495278852545925e3, 2.8729085735721942674e4, 3.930789580009271061e4, 2.1213794301586595867e4,
  5.3941960214247511077e3, 6.871870074920579083e2, 4.2313330701600911252e1, 1,
];
const middleAbove = [
  7.7454501427834140764e-4, 2.27238449892691845833e-2, 2.4178072517745061177e-1, 1.27045825245236838258,
  3.64784832476320460504, 5.7694972214606914055, 4.6303378461565452959, 1.42343711074968357734,
];
const middleBelow = [
  1.05075007164441684324e-9, 5.475938084995344946e-4, 1.51986665636164571966e-2, 1.4810397642748007459e-1,
  6.8976733498510000455e-1, 1.6763848301838038494, 2.05319162663775882187, 1,
];
const farAbove = [
  2.01033439929228813265e-7, 2.71155556874348757815e-5, 1.2426609473880784386e-3, 2.6532189526576123093e-2,
  2.9656057182850489123e-1, 1.7848265399172913358, 5.4637849111641143699, 6.6579046435011037772,
];
const farBelow = [
  2.04426310338993978564e-15, 1.4215117583164458887e-7, 1.8463183175100546818e-5, 7.868691311456132591e-4,
  1.48753612908506148525e-2, 1.3692988092273580531e-1, 5.9983220655588793769e-1, 1,
];

/**
 * Quantile of the standard normal distribution: algorithm AS 241, PPND16, on our own logarithm.
 *
 * @param probability in [0, 1]
 * @returns z with Phi(z) = probability, relative error about 1e-15; -Infinity at 0, Infinity at 1
 * @throws {DomainError} `probability-out-of-range` outside [0, 1] and for NaN
 * @see Wichura 1988, "Algorithm AS 241: the percentage points of the normal distribution"
 */
export function normalQuantile(probability: number): number {
  if (!(probability >= 0 && probability <= 1)) {
    throw new DomainError("probability-out-of-range", `probability ${probability} is not in [0, 1]`);
  }
  if (probability === 0) return -Infinity;
  if (probability === 1) return Infinity;
  const q = probability - 0.5;
  if (Math.abs(q) <= centralHalfWidth) {
    const r = centralHalfWidth * centralHalfWidth - q * q;
    return (q * polynomial(centralAbove, r)) / polynomial(centralBelow, r);
  }
  const size = tailSize(Math.sqrt(-log(q < 0 ? probability : 1 - probability)));
  return q < 0 ? -size : size;
}

function tailSize(r: number): number {
  if (r <= middleEnd) return polynomial(middleAbove, r - 1.6) / polynomial(middleBelow, r - 1.6);
  return polynomial(farAbove, r - middleEnd) / polynomial(farBelow, r - middleEnd);
}
