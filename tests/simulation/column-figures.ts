import { sampleRankCorrelation } from "simple-statistics";
import { expect } from "vitest";

/** How many standard errors a figure of a fixed seed may lie from what it should be. */
const standardErrors = 5;

/** Mean of a column, summed about its first value. */
export function meanOf(column: Float64Array): number {
  const first = column[0]!;
  return first + column.reduce((sum, value) => sum + (value - first), 0) / column.length;
}

function centralMoment(column: Float64Array, order: 2 | 4): number {
  const mean = meanOf(column);
  return column.reduce((sum, value) => sum + (value - mean) ** order, 0) / column.length;
}

/** Standard deviation of a column. */
export function sdOf(column: Float64Array): number {
  return Math.sqrt((centralMoment(column, 2) * column.length) / (column.length - 1));
}

/** Quantile of ascending values, Hyndman & Fan type 7. */
export function quantileOfSorted(sorted: Float64Array, probability: number): number {
  const place = (sorted.length - 1) * Math.min(1, Math.max(0, probability));
  const below = Math.floor(place);
  const low = sorted[below]!;
  return low + ((sorted[below + 1] ?? low) - low) * (place - below);
}

/** Share of a column at or below a limit. */
export function shareUpTo(column: Float64Array, limit: number): number {
  return column.reduce((count, value) => count + (value <= limit ? 1 : 0), 0) / column.length;
}

/** Spearman's rank correlation of two columns. */
export function rankCorrelation(a: Float64Array, b: Float64Array): number {
  return sampleRankCorrelation([...a], [...b]);
}

function expectNear(name: string, value: number, expected: number, tolerance: number): void {
  expect(Math.abs(value - expected), `${name} ${value}, expected ${expected}`).toBeLessThan(tolerance);
}

/** The mean lies within five standard errors, sd / sqrt(N), of the expected one; strata only make it closer. */
export function expectMean(column: Float64Array, expected: number): void {
  const standardError = sdOf(column) / Math.sqrt(column.length);
  expectNear("mean", meanOf(column), expected, standardErrors * standardError);
}

/** The sd lies within five standard errors, sqrt((m4 - m2^2) / (4 m2 N)) (delta method, the column's own moments). */
export function expectSd(column: Float64Array, expected: number): void {
  const variance = centralMoment(column, 2);
  const spread = centralMoment(column, 4) - variance * variance;
  const standardError = Math.sqrt(spread / (4 * variance * column.length));
  expectNear("sd", sdOf(column), expected, standardErrors * standardError);
}

/** The share up to a limit lies within five standard errors, sqrt(p (1 - p) / N), of the expected one. */
export function expectShareUpTo(column: Float64Array, limit: number, expected: number): void {
  const standardError = Math.sqrt((expected * (1 - expected)) / column.length);
  expectNear(`share up to ${limit}`, shareUpTo(column, limit), expected, standardErrors * standardError);
}

/**
 * The expected quantile lies between the column's quantiles at p plus and minus five standard errors of p: the binomial
 * confidence interval by order statistics, whatever the distribution.
 */
export function expectQuantile(column: Float64Array, probability: number, expected: number): void {
  const reach = standardErrors * Math.sqrt((probability * (1 - probability)) / column.length);
  const sorted = column.toSorted();
  expect(expected).toBeGreaterThanOrEqual(quantileOfSorted(sorted, probability - reach));
  expect(expected).toBeLessThanOrEqual(quantileOfSorted(sorted, probability + reach));
}

/** The rank correlation lies within five of its standard errors, at most 1 / sqrt(N), which is that without correlation. */
export function expectRankCorrelation(a: Float64Array, b: Float64Array, expected: number): void {
  const tolerance = standardErrors / Math.sqrt(a.length);
  expectNear("rank correlation", rankCorrelation(a, b), expected, tolerance);
}
