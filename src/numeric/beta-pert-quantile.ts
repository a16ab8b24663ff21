import { exp } from "./exp.ts";
import { incompleteBeta } from "./incomplete-beta.ts";
import { log } from "./log.ts";
import { logBeta } from "./log-beta.ts";
import { normalCdf } from "./normal-cdf.ts";
import { lastScore } from "./quantile-table.ts";

/** Cells of each half, from score 0 to the last score. */
const cells = 64;
const step = lastScore / cells;
const densityAtZero = 0.3989422804014327;

/** Quantiles of one half of a beta distribution at scores 0, -step, -2 step ..., and their slopes along the score. */
interface Half {
  readonly place: Float64Array;
  readonly slope: Float64Array;
}

/**
 * Quantile function of the PERT (modified beta) distribution, by standard normal score.
 *
 * Solved at 129 scores and cubic (Hermite) between them: error at most about 1e-7 of the range.
 *
 * @param low smallest value
 * @param mode likeliest value, in [low, high]
 * @param high largest value; equal to `low` gives the constant
 * @param weight of the mode, > 0; 4 is usual
 * @see Malcolm, Roseboom, Clark & Fazar 1959; alpha = 1 + w (m - a) / (b - a), beta = 1 + w (b - m) / (b - a)
 */
export function betaPertQuantile(
  low: number,
  mode: number,
  high: number,
  weight: number,
): (z: number) => number {
  const range = high - low;
  if (range === 0) return () => low;
  const alpha = 1 + (weight * (mode - low)) / range;
  const beta = 1 + (weight * (high - mode)) / range;
  const lower = solveHalf(alpha, beta);
  const upper = solveHalf(beta, alpha);
  return (z) => (z <= 0 ? low + range * interpolate(lower, -z) : high - range * interpolate(upper, z));
}

/** From the median outwards each solution starts where the slope of the last one points. */
function solveHalf(a: number, b: number): Half {
  const logBetaAB = logBeta(a, b);
  const place = new Float64Array(cells + 1);
  const slope = new Float64Array(cells + 1);
  let logPlace = log(a / (a + b));
  for (let knot = 0; knot <= cells; knot++) {
    const score = -knot * step;
    logPlace = solve(logPlace, normalCdf(score), a, b, logBetaAB);
    const x = exp(logPlace);
    const density = exp((a - 1) * logPlace + (b - 1) * log(1 - x) - logBetaAB);
    place[knot] = x;
    slope[knot] = (densityAtZero * exp(-0.5 * score * score)) / density;
    logPlace -= Math.min(1, (slope[knot]! * step) / x);
  }
  return { place, slope };
}

/** Newton's method on log I against log x, which is nearly straight in the tail; kept inside (0, 1). */
function solve(start: number, probability: number, a: number, b: number, logBetaAB: number): number {
  const target = log(probability);
  let logPlace = start;
  for (let round = 0; round < 50; round++) {
    const x = exp(logPlace);
    const below = incompleteBeta(x, a, b, logBetaAB);
    const density = exp((a - 1) * logPlace + (b - 1) * log(1 - x) - logBetaAB);
    const change = ((log(below) - target) * below) / (x * density);
    const next = logPlace - Math.max(-1, Math.min(1, change));
    logPlace = next < 0 ? next : logPlace / 2;
    if (Math.abs(change) < 1e-13) break;
  }
  return logPlace;
}

function interpolate({ place, slope }: Half, distance: number): number {
  const along = Math.min(cells, distance / step);
  const knot = Math.min(cells - 1, Math.floor(along));
  const t = along - knot;
  const s = 1 - t;
  const from = place[knot]!;
  const to = place[knot + 1]!;
  // Going outwards the place falls, hence the slopes' signs.
  const curve = s * s * (1 + 2 * t) * from + t * t * (3 - 2 * t) * to;
  return curve + t * s * step * (t * slope[knot + 1]! - s * slope[knot]!);
}
