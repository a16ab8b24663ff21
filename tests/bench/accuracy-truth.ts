import { meanOf } from "../../src/numeric/mean-of.ts";
import { sdOf } from "../../src/numeric/sd-of.ts";
import type { EstimateDocument } from "../../src/domain/estimate-document.ts";
import type { SeedsPool } from "./accuracy-pool.ts";
import type { Runs } from "./accuracy-runs.ts";

/** What a field really is, as far as known. */
export interface Truth {
  readonly value: number;
  /** Standard error of the above. */
  readonly error: number;
}

const bigRuns = 10;
const bigDraws = 200_000;
/** Draws that the truth of a percentile rests on. */
export const truthDraws = bigRuns * bigDraws;
/** Seeds far from those measured. */
const firstBigSeed = 1_000_001;

/**
 * Means, chances, shares of draws and counts are unbiased whatever the number of draws: their truth is the mean of all runs
 * measured. Percentiles, spreads and ratios are not: a bias at few draws is an error, so theirs comes from big runs.
 */
const unbiased = /\/mean$|[pP]robability$|\/share$|\/departures$|\/expectedOverrun$/;

/** Two million stratified draws of a document, in ten runs. */
export function bigRunsOf(pool: SeedsPool, document: EstimateDocument): Promise<Runs> {
  return pool.run(document, { draws: bigDraws, sampling: "stratified" }, bigRuns, firstBigSeed);
}

/**
 * The truth of a field.
 *
 * @param runs those that are to be judged
 * @param big see `bigRunsOf`
 */
export function truthOf(name: string, runs: Runs, big: Runs): Truth {
  const { values } = (unbiased.test(name) ? runs : big).fields.get(name)!;
  return pooled(values);
}

/** Mean of independent measurements, with the standard error of that mean. */
export function pooled(values: Float64Array): Truth {
  const error = sdOf(values, 0, values.length) / Math.sqrt(values.length);
  return { value: meanOf(values, 0, values.length), error };
}

/** Root of the mean squared distance from the truth. */
export function rmseOf(values: Float64Array, truth: number): number {
  let sum = 0;
  for (const value of values) sum += (value - truth) ** 2;
  return Math.sqrt(sum / values.length);
}
