import { log } from "./log.ts";

/** Stirling's series is used from here on. */
const seriesFrom = 12;
const halfLog2Pi = 0.9189385332046727;

/**
 * Logarithm of the gamma function: Stirling's series after shifting the argument up.
 *
 * @param x > 0
 * @returns log of Gamma(x), absolute error about 1e-14 near 1
 * @see Abramowitz & Stegun 6.1.41
 */
export function logGamma(x: number): number {
  let product = 1;
  let shifted = x;
  while (shifted < seriesFrom) {
    product *= shifted;
    shifted += 1;
  }
  const inverse = 1 / (shifted * shifted);
  const series =
    (1 / 12 - inverse * (1 / 360 - inverse * (1 / 1260 - inverse * (1 / 1680 - inverse / 1188)))) / shifted;
  return (shifted - 0.5) * log(shifted) - shifted + halfLog2Pi + series - log(product);
}
