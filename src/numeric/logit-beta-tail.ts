import { inverseLogit, type LogitBeta, logDensity } from "./logit-beta.ts";
import { log } from "./log.ts";

/** Newton's method settles in about six steps. */
const mostSteps = 60;
const precision = 1e-15;
/** More than the series can need for any parameters up to a million. */
const mostTerms = 20_000;

/**
 * The logit below which a given probability lies, accurate relative to the probability.
 *
 * P(Y < y) = g(y) / alpha (1 + (a + b) / (a + 1) x + (a + b)(a + b + 1) / ((a + 1)(a + 2)) x^2 + ...), x the variable
 * itself; its logarithm is concave in y, so that Newton's method cannot fail.
 *
 * @param shape see `logitBeta`
 * @param probability in (0, 1); meant for the lower half, where the series is short
 * @see DLMF 8.17.8
 */
export function logitBetaTail(shape: LogitBeta, probability: number): number {
  const wanted = log(probability);
  let y = log(shape.alpha / shape.beta);
  for (let step = 0; step < mostSteps; step++) {
    const ratio = tailSeries(shape, inverseLogit(y)) / shape.alpha;
    const change = (wanted - logDensity(shape, y) - log(ratio)) * ratio;
    y += change;
    if (Math.abs(change) <= precision * (1 + Math.abs(y))) break;
  }
  return y;
}

function tailSeries({ alpha, beta }: LogitBeta, x: number): number {
  let term = 1;
  let sum = 1;
  for (let power = 1; power < mostTerms && term > sum * 1e-17; power++) {
    term *= ((alpha + beta + power - 1) / (alpha + power)) * x;
    sum += term;
  }
  return sum;
}
