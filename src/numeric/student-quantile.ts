import { exp } from "./exp.ts";
import { incompleteBeta } from "./incomplete-beta.ts";
import { log } from "./log.ts";
import { logBeta } from "./log-beta.ts";
import { normalQuantile } from "./normal-quantile.ts";

/** From here on the expansion in 1 / freedom is exact to double precision for probabilities that are not extreme. */
const expansionFrom = 2_000;

/**
 * Quantile of Student's t distribution.
 *
 * @param probability in (0, 1)
 * @param freedom degrees of freedom, real, >= 1
 * @returns t, relative error about 1e-12
 * @see Abramowitz & Stegun 26.7.1 (distribution) and 26.7.5 (expansion, the start of Newton's method)
 */
export function studentQuantile(probability: number, freedom: number): number {
  if (probability === 0.5) return 0;
  if (probability > 0.5) return -studentQuantile(1 - probability, freedom);
  let t = expansion(normalQuantile(probability), freedom);
  if (freedom >= expansionFrom) return t;
  const logBetaHalf = logBeta(freedom / 2, 0.5);
  for (let round = 0; round < 50; round++) {
    const squared = t * t;
    const below = 0.5 * incompleteBeta(freedom / (freedom + squared), freedom / 2, 0.5, logBetaHalf);
    const density = exp(-logBetaHalf - ((freedom + 1) / 2) * log(1 + squared / freedom)) / Math.sqrt(freedom);
    // Newton on the logarithm of the tail, which is nearly straight.
    const change = ((log(below) - log(probability)) * below) / density;
    t = Math.min(t / 4, t - change);
    if (Math.abs(change) < 1e-14 * Math.abs(t)) break;
  }
  return t;
}

function expansion(z: number, freedom: number): number {
  const s = z * z;
  const g1 = (z * (s + 1)) / 4;
  const g2 = (z * ((5 * s + 16) * s + 3)) / 96;
  const g3 = (z * (((3 * s + 19) * s + 17) * s - 15)) / 384;
  const g4 = (z * ((((79 * s + 776) * s + 1482) * s - 1920) * s - 945)) / 92160;
  return z + (g1 + (g2 + (g3 + g4 / freedom) / freedom) / freedom) / freedom;
}
