import { exp } from "./exp.ts";
import { inverseLogit, type LogitBeta, logDensity, logitBeta } from "./logit-beta.ts";
import { logitBetaTail } from "./logit-beta-tail.ts";
import { normalCdf } from "./normal-cdf.ts";

/** Scores beyond minus and plus this count as it. */
const lastScore = 8.75;
const spacing = 0.25;
const nodes = lastScore / spacing + 1;
/** Powers of the score's distance from a node kept in its Taylor series: the next would add less than 1e-15. */
const order = 12;
const terms = order + 1;
const rootTwoPi = 2.5066282746310002;

/**
 * Quantile function of the logit of a beta variable, by the differential equation dy/dz = phi(z) / g(y).
 *
 * Each half is followed from its own tail inward, where errors shrink: y at the outermost score from the tail's series,
 * then from node to node by Taylor series, which also give y between them.
 *
 * @param alpha first shape parameter, >= 1/2
 * @param beta second shape parameter, >= 1/2
 * @returns log(x / (1 - x)) at a standard normal score, those beyond +-8.75 counting as +-8.75
 * @see Steinbrecher & Shaw 2008, "Quantile mechanics"
 */
export function logitBetaQuantile(alpha: number, beta: number): (z: number) => number {
  const shape = logitBeta(alpha, beta);
  const below = lowerHalf(shape);
  const above = alpha === beta ? below : lowerHalf({ alpha: beta, beta: alpha, logTotal: shape.logTotal });
  return (z) => (z < 0 ? seriesAt(below, -z) : -seriesAt(above, z));
}

/** Taylor coefficients of y at scores 0, -.25, ... -8.75: `terms` a node, lowest power first. */
function lowerHalf(shape: LogitBeta): Float64Array {
  const series = new Float64Array(nodes * terms);
  let y = logitBetaTail(shape, normalCdf(-lastScore));
  for (let node = nodes - 1; node >= 0; node--) {
    const ofNode = series.subarray(node * terms, (node + 1) * terms);
    fillSeries(shape, -node * spacing, y, ofNode);
    y = taylor(ofNode, 0, spacing);
  }
  return series;
}

function seriesAt(series: Float64Array, size: number): number {
  const bounded = Math.min(size, lastScore);
  const node = Math.floor(bounded / spacing + 0.5);
  return taylor(series, node * terms, node * spacing - bounded);
}

function taylor(series: Float64Array, start: number, distance: number): number {
  let value = series[start + order]!;
  for (let place = start + order - 1; place >= start; place--) value = value * distance + series[place]!;
  return value;
}

const slopes = new Float64Array(terms);
const slopeSquares = new Float64Array(terms);
const shares = new Float64Array(terms);
const leanings = new Float64Array(terms);
const shareSlopes = new Float64Array(terms);

/**
 * Writes y's Taylor coefficients at a score. With v = y', x = 1 / (1 + e^-y) and l = d log g / dy = alpha - (alpha + beta) x:
 * v' = -z v - l v^2 and x' = x (1 - x) v, whose coefficients follow power by power.
 */
function fillSeries(shape: LogitBeta, z: number, y: number, series: Float64Array): void {
  series[0] = y;
  slopes[0] = exp(-0.5 * z * z - logDensity(shape, y)) / rootTwoPi;
  shares[0] = inverseLogit(y);
  for (let power = 0; power < order; power++) {
    const next = power + 1;
    series[next] = slopes[power]! / next;
    slopeSquares[power] = product(slopes, slopes, power);
    leanings[power] = (power === 0 ? shape.alpha : 0) - (shape.alpha + shape.beta) * shares[power]!;
    shareSlopes[power] = shares[power]! - product(shares, shares, power);
    const before = power === 0 ? 0 : slopes[power - 1]!;
    slopes[next] = -(z * slopes[power]! + before + product(leanings, slopeSquares, power)) / next;
    shares[next] = product(shareSlopes, slopes, power) / next;
  }
}

/** Coefficient of a power in the product of two series. */
function product(left: Float64Array, right: Float64Array, power: number): number {
  let sum = 0;
  for (let place = 0; place <= power; place++) sum += left[place]! * right[power - place]!;
  return sum;
}
