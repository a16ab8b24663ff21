import { logGamma } from "./log-gamma.ts";

/**
 * Logarithm of the beta function.
 *
 * @param a > 0
 * @param b > 0
 */
export function logBeta(a: number, b: number): number {
  return logGamma(a) + logGamma(b) - logGamma(a + b);
}
