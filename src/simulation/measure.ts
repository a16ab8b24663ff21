import { binomialBound } from "../numeric/binomial-bound.ts";
import { type QuantilePlace, quantileEstimates } from "../numeric/quantile-estimates.ts";
import { sdOf } from "../numeric/sd-of.ts";
import { stretchMeans, stretchMoments } from "../numeric/stretch-moments.ts";
import { studentQuantile } from "../numeric/student-quantile.ts";
import type { Measured, Range, Summary } from "../domain/estimate-result.ts";

/**
 * Gives a figure the standard error that its scatter over the replicates tells.
 *
 * @param figures of each replicate, and of all draws last
 * @returns the figure on all draws; its error is the replicates' standard deviation / root of their number
 */
export function measured(figures: Float64Array): Measured {
  const replicates = figures.length - 1;
  return {
    value: figures[replicates]!,
    standardError: sdOf(figures, 0, replicates) / Math.sqrt(replicates),
  };
}

const studentPoints = new Map<number, number>();

/** Two-sided 95 % point of Student's t for so many replicates. */
export function studentPoint(replicates: number): number {
  const point = studentPoints.get(replicates) ?? studentQuantile(0.975, replicates - 1);
  studentPoints.set(replicates, point);
  return point;
}

/**
 * Gives a probability that is not certain an honest error where the replicates give none: at 0 and 1 one whose 95 %
 * interval reaches the binomial bound; between them, where strata can give every replicate the same count, one draw.
 *
 * @param measured a measured probability
 * @param starts where each replicate begins, and the number of draws
 * @param certain true when nothing in the document could make it otherwise
 */
export function honestProbability(measured: Measured, starts: Int32Array, certain: boolean): Measured {
  if (certain) return measured;
  const { value } = measured;
  const replicates = starts.length - 1;
  const draws = starts[replicates]!;
  const least =
    value === 0 || value === 1 ? binomialBound(draws, 0.95) / studentPoint(replicates) : 1 / draws;
  return { value, standardError: Math.max(least, measured.standardError) };
}

/** Measures the mean of a column. */
export function meanMeasured(column: Float64Array, starts: Int32Array): Measured {
  return measured(stretchMeans(column, starts));
}

/** Measures quantiles of a column. */
export function quantilesMeasured(
  column: Float64Array,
  starts: Int32Array,
  probabilities: readonly number[],
  placeOf?: QuantilePlace,
): Measured[] {
  const point = studentPoint(starts.length - 1);
  const { values, errors } = quantileEstimates(column, starts, probabilities, point, placeOf);
  return probabilities.map((_, place) => ({ value: values[place]!, standardError: errors[place]! }));
}

/** Measures a column's mean and main percentiles. */
export function rangeOf(column: Float64Array, starts: Int32Array): Range {
  const [p10, p50, p80, p90] = quantilesMeasured(column, starts, [0.1, 0.5, 0.8, 0.9]) as Tuple<Measured, 4>;
  return { mean: meanMeasured(column, starts), p10, p50, p80, p90 };
}

/** Measures a column's mean, standard deviation and percentiles. */
export function summaryOf(column: Float64Array, starts: Int32Array): Summary {
  const { means, squares } = stretchMoments(column, starts);
  const deviations = squares.map((sum, row) => Math.sqrt(sum / (countOf(starts, row) - 1)));
  const probabilities = [0.05, 0.1, 0.25, 0.5, 0.75, 0.8, 0.9, 0.95];
  const [p5, p10, p25, p50, p75, p80, p90, p95] = quantilesMeasured(column, starts, probabilities) as Tuple<
    Measured,
    8
  >;
  return { mean: measured(means), sd: measured(deviations), p5, p10, p25, p50, p75, p80, p90, p95 };
}

type Tuple<T, N extends number> = number extends N ? T[] : TupleOf<T, N, []>;
type TupleOf<T, N extends number, Made extends T[]> = Made["length"] extends N
  ? Made
  : TupleOf<T, N, [...Made, T]>;

/** Draws of a replicate, or of all where the row is the one after the last. */
function countOf(starts: Int32Array, row: number): number {
  const replicates = starts.length - 1;
  return row < replicates ? starts[row + 1]! - starts[row]! : starts[replicates]!;
}

/**
 * Measures the chance that a column lies strictly beyond a limit.
 *
 * @param side of the limit
 * @param rareEvents whether a column equal in every draw may still be otherwise, see `Program.hasRareEvents`
 */
export function chanceBeyond(
  column: Float64Array,
  starts: Int32Array,
  side: "above" | "below",
  limit: number,
  rareEvents: boolean,
): Measured {
  const sign = side === "above" ? 1 : -1;
  const beyond = column.map((value) => (sign * (value - limit) > 0 ? 1 : 0));
  const first = column[0]!;
  const certain = !rareEvents && column.every((value) => value === first);
  return honestProbability(meanMeasured(beyond, starts), starts, certain);
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
  const { means, squares } = stretchMoments(total, starts);
  const replicates = starts.length - 1;
  const mean = means[replicates]!;
  const deviations = total.map((value) => value - mean);
  return columns.map((column) => {
    const products = stretchProducts(deviations, means, column, starts);
    return measured(products.map((product, row) => (squares[row] === 0 ? 0 : product / squares[row]!)));
  });
}

/** Sums of products of a total's deviations from each stretch's own mean, and from the mean of all, with a column. */
function stretchProducts(
  deviations: Float64Array,
  means: Float64Array,
  column: Float64Array,
  starts: Int32Array,
): Float64Array {
  const replicates = starts.length - 1;
  const products = new Float64Array(replicates + 1);
  const mean = means[replicates]!;
  // Deviations add up to nothing, so any constant may be taken off the column.
  const centre = column[0]!;
  for (let replicate = 0; replicate < replicates; replicate++) {
    const end = starts[replicate + 1]!;
    let product = 0;
    let sum = 0;
    for (let draw = starts[replicate]!; draw < end; draw++) {
      const value = column[draw]! - centre;
      product += deviations[draw]! * value;
      sum += value;
    }
    products[replicate] = product - (means[replicate]! - mean) * sum;
    products[replicates] = products[replicates]! + product;
  }
  return products;
}

/** Measures the mean of something counted by replicate, per draw. */
export function meanOfCounts(
  counts: Int32Array | Float64Array,
  place: number,
  stride: number,
  starts: Int32Array,
): Measured {
  const replicates = starts.length - 1;
  const figures = new Float64Array(replicates + 1);
  let total = 0;
  for (let replicate = 0; replicate < replicates; replicate++) {
    const count = counts[replicate * stride + place]!;
    figures[replicate] = count / countOf(starts, replicate);
    total += count;
  }
  figures[replicates] = total / starts[replicates]!;
  return measured(figures);
}
