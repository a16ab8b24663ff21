import { binomialBound } from "../numeric/binomial-bound.ts";
import { meanOf } from "../numeric/mean-of.ts";
import { quantilesOf } from "../numeric/quantiles-of.ts";
import { sdOf } from "../numeric/sd-of.ts";
import { studentQuantile } from "../numeric/student-quantile.ts";
import type { Measured, Range, Summary } from "../domain/estimate-result.ts";
import { replicateCount } from "./replicates.ts";

/** Figures of one stretch of draws, [start, end). */
export type Statistic = (start: number, end: number) => number[];

/**
 * Measures figures on all draws, with the standard error their scatter over the replicates gives.
 *
 * @param starts where each replicate begins, see `replicateStarts`
 * @param statistic the figures of a stretch of draws, always equally many
 * @returns each figure pooled over all draws; its standard error is the replicates' standard deviation / sqrt(16)
 */
export function measure(starts: Int32Array, statistic: Statistic): Measured[] {
  const pooled = statistic(0, starts[replicateCount]!);
  const replicates = Array.from({ length: replicateCount }, (_, replicate) =>
    statistic(starts[replicate]!, starts[replicate + 1]!),
  );
  return pooled.map((value, figure) => {
    const scatter = Float64Array.from(replicates, (figures) => figures[figure]!);
    return { value, standardError: sdOf(scatter, 0, replicateCount) / Math.sqrt(replicateCount) };
  });
}

/** Two-sided 95 % point of Student's t with 15 degrees of freedom. */
const studentPoint = studentQuantile(0.975, replicateCount - 1);

/**
 * Gives a probability of 0 or 1 that is not certain an honest error: one whose 95 % interval reaches the binomial bound.
 *
 * @param measured a measured probability
 * @param draws it was measured on
 * @param certain true when nothing in the document could make it otherwise
 */
export function honestProbability(measured: Measured, draws: number, certain: boolean): Measured {
  if (certain || (measured.value !== 0 && measured.value !== 1)) return measured;
  return { value: measured.value, standardError: binomialBound(draws, 0.95) / studentPoint };
}

const rangeProbabilities = [0.1, 0.5, 0.8, 0.9] as const;
const summaryProbabilities = [0.05, 0.1, 0.25, 0.5, 0.75, 0.8, 0.9, 0.95] as const;

/** Measures a column's mean and main percentiles. */
export function rangeOf(column: Float64Array, starts: Int32Array): Range {
  const [mean, p10, p50, p80, p90] = measure(starts, (start, end) => [
    meanOf(column, start, end),
    ...quantilesOf(column, start, end, rangeProbabilities),
  ]) as [Measured, Measured, Measured, Measured, Measured];
  return { mean, p10, p50, p80, p90 };
}

/** Measures a column's mean, standard deviation and percentiles. */
export function summaryOf(column: Float64Array, starts: Int32Array): Summary {
  const [mean, sd, p5, p10, p25, p50, p75, p80, p90, p95] = measure(starts, (start, end) => [
    meanOf(column, start, end),
    sdOf(column, start, end),
    ...quantilesOf(column, start, end, summaryProbabilities),
  ]) as Tuple10<Measured>;
  return { mean, sd, p5, p10, p25, p50, p75, p80, p90, p95 };
}

type Tuple10<T> = [T, T, T, T, T, T, T, T, T, T];

/**
 * Measures the chance that a column lies strictly beyond a limit.
 *
 * @param side of the limit
 * @param rareEvents whether a column equal in every draw may still be otherwise, see `hasRareEvents`
 */
export function chanceBeyond(
  column: Float64Array,
  starts: Int32Array,
  side: "above" | "below",
  limit: number,
  rareEvents: boolean,
): Measured {
  const sign = side === "above" ? 1 : -1;
  const [chance] = measure(starts, (start, end) => {
    let beyond = 0;
    for (let draw = start; draw < end; draw++) if (sign * (column[draw]! - limit) > 0) beyond += 1;
    return [beyond / (end - start)];
  }) as [Measured];
  const first = column[0]!;
  const certain = !rareEvents && column.every((value) => value === first);
  return honestProbability(chance, column.length, certain);
}

/**
 * Measures how much of a total's variance each column explains: covariance over variance; 0 when the total is constant.
 *
 * @param columns that add up to the total, draw by draw
 * @returns shares in the order of the columns, adding up to 1
 */
export function varianceSharesOf(
  columns: readonly Float64Array[],
  total: Float64Array,
  starts: Int32Array,
): Measured[] {
  return measure(starts, (start, end) => {
    const deviations = deviationsOf(total, start, end);
    const variance = sumOfProducts(deviations, total, start);
    return columns.map((column) =>
      variance === 0 ? 0 : sumOfProducts(deviations, column, start) / variance,
    );
  });
}

function deviationsOf(values: Float64Array, start: number, end: number): Float64Array {
  const mean = meanOf(values, start, end);
  return values.subarray(start, end).map((value) => value - mean);
}

/** Deviations add up to nothing, so any constant may be taken off the values: here the first of them. */
function sumOfProducts(deviations: Float64Array, values: Float64Array, start: number): number {
  const first = values[start]!;
  let sum = 0;
  for (let index = 0; index < deviations.length; index++) {
    sum += deviations[index]! * (values[start + index]! - first);
  }
  return sum;
}

/** Measures the mean of something counted by replicate, per draw. */
export function meanOfCounts(
  counts: Int32Array | Float64Array,
  place: number,
  stride: number,
  starts: Int32Array,
): Measured {
  const countIn = (replicate: number) => counts[replicate * stride + place]!;
  let total = 0;
  const means = Float64Array.from({ length: replicateCount }, (_, replicate) => {
    total += countIn(replicate);
    return countIn(replicate) / (starts[replicate + 1]! - starts[replicate]!);
  });
  return {
    value: total / starts[replicateCount]!,
    standardError: sdOf(means, 0, replicateCount) / Math.sqrt(replicateCount),
  };
}
