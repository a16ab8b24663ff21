import { exp } from "./exp.ts";
import { log } from "./log.ts";
import { logBeta } from "./log-beta.ts";

const smallest = 1e-300;
const mostTerms = 10_000;

/**
 * Regularised incomplete beta function: the cumulative distribution of the beta distribution.
 *
 * @param x in [0, 1]
 * @param a > 0
 * @param b > 0
 * @param logBetaAB log B(a, b), where the caller has it
 * @returns I_x(a, b), relative error about 1e-13
 * @see DLMF 8.17.22 (continued fraction), evaluated by the modified Lentz method
 */
export function incompleteBeta(x: number, a: number, b: number, logBetaAB: number = logBeta(a, b)): number {
  if (x <= 0) return 0;
  if (x >= 1) return 1;
  if (x > (a + 1) / (a + b + 2)) return 1 - lowerPart(1 - x, b, a, logBetaAB);
  return lowerPart(x, a, b, logBetaAB);
}

function lowerPart(x: number, a: number, b: number, logBetaAB: number): number {
  const front = exp(a * log(x) + b * log(1 - x) - logBetaAB) / a;
  let c = 1;
  let d = 1 / away(1 - ((a + b) * x) / (a + 1));
  let fraction = d;
  for (let m = 1; m <= mostTerms; m++) {
    const even = (m * (b - m) * x) / ((a + 2 * m - 1) * (a + 2 * m));
    d = 1 / away(1 + even * d);
    c = away(1 + even / c);
    fraction *= d * c;
    const odd = (-(a + m) * (a + b + m) * x) / ((a + 2 * m) * (a + 2 * m + 1));
    d = 1 / away(1 + odd * d);
    c = away(1 + odd / c);
    const change = d * c;
    fraction *= change;
    if (Math.abs(change - 1) < 1e-15) break;
  }
  return front * fraction;
}

function away(value: number): number {
  return Math.abs(value) < smallest ? smallest : value;
}
