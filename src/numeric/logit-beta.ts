import { exp } from "./exp.ts";
import { log } from "./log.ts";

/** The distribution of the logit y = log(x / (1 - x)) of a beta variable x: density e^(alpha log x + beta log(1 - x) - logTotal). */
export interface LogitBeta {
  /** First shape parameter, > 0. */
  readonly alpha: number;
  /** Second shape parameter, > 0. */
  readonly beta: number;
  /** Logarithm of the beta function of both. */
  readonly logTotal: number;
}

/** Steps of the trapezoidal rule in a standard deviation; the rule then errs by less than 1e-15. */
const stepsPerSpread = 4;
/** Terms smaller than this share of the largest are left out. */
const smallestShare = 1e-18;
/** Several times what any parameters need. */
const mostTerms = 2000;

/**
 * The logit of a beta variable, normalised.
 *
 * The trapezoidal rule on the whole line errs less than any power of its step for so smooth a density, and loses nothing
 * to cancellation for large parameters, as a difference of three log-gammas would.
 *
 * @param alpha first shape parameter, >= 1/2
 * @param beta second shape parameter, >= 1/2
 * @see Trefethen & Weideman 2014, "The exponentially convergent trapezoidal rule"
 */
export function logitBeta(alpha: number, beta: number): LogitBeta {
  const mode = log(alpha / beta);
  const step = Math.sqrt(1 / alpha + 1 / beta) / stepsPerSpread;
  const unscaled = { alpha, beta, logTotal: 0 };
  const logTop = logDensity(unscaled, mode);
  const shape = { alpha, beta, logTotal: logTop };
  const sum = 1 + sumOutward(shape, mode, step) + sumOutward(shape, mode, -step);
  return { alpha, beta, logTotal: logTop + log(sum * step) };
}

function sumOutward(shape: LogitBeta, mode: number, step: number): number {
  let sum = 0;
  for (let place = 1; place <= mostTerms; place++) {
    const term = exp(logDensity(shape, mode + place * step));
    sum += term;
    if (term < smallestShare) break;
  }
  return sum;
}

/**
 * Logarithm of the density at a logit.
 *
 * @param shape see `logitBeta`
 * @param y any number
 */
export function logDensity({ alpha, beta, logTotal }: LogitBeta, y: number): number {
  const rest = (alpha + beta) * log(1 + exp(-Math.abs(y)));
  return (y < 0 ? alpha * y : -beta * y) - rest - logTotal;
}

/**
 * The beta variable at a logit, accurate relative to itself near 0.
 *
 * @param y any number
 * @returns 1 / (1 + e^-y)
 */
export function inverseLogit(y: number): number {
  const small = exp(-Math.abs(y));
  return (y < 0 ? small : 1) / (1 + small);
}
