import { type BinnedColumn, binColumn, binOfRank, endsOf, gatherBins, valueOfRank } from "./binned-column.ts";
import { sdOf } from "./sd-of.ts";

/**
 * Where a quantile lies among ascending values.
 *
 * @param probability in [0, 1]
 * @param count of values
 * @returns a rank from 0, in [0, count - 1]; between two of them where it is not whole
 */
export type QuantilePlace = (probability: number, count: number) => number;

/** Hyndman & Fan type 7. */
export const type7: QuantilePlace = (probability, count) => (count - 1) * probability;

/** Quantiles with their standard errors, in the order of the probabilities. */
export interface QuantileEstimates {
  readonly values: Float64Array;
  readonly errors: Float64Array;
}

/**
 * Quantiles of a column with standard errors from its replicates, without sorting the column.
 *
 * The error is taken on the scale of probability, after Woodruff: s is the standard error of the share of values below the
 * quantile (ties counted half) by its scatter over the replicates, never below 1 / n; the interval from the quantile at
 * p - t s to that at p + t s is 2 t standard errors wide. The replicates' own quantiles would be too close together: in a
 * stratified column each interpolates between two strata.
 *
 * @param values every replicate after the other; not changed
 * @param starts where each replicate begins, and the number of values n; at least two, none empty
 * @param probabilities in [0, 1]
 * @param studentPoint t: two-sided point of Student's t for the replicates less one
 * @param placeOf which kind of quantile
 * @see Hyndman & Fan 1996, "Sample quantiles in statistical packages"
 * @see Woodruff 1952, "Confidence intervals for medians and other position measures"
 */
export function quantileEstimates(
  values: Float64Array,
  starts: Int32Array,
  probabilities: readonly number[],
  studentPoint: number,
  placeOf: QuantilePlace = type7,
): QuantileEstimates {
  const count = starts[starts.length - 1]!;
  const found = {
    values: new Float64Array(probabilities.length),
    errors: new Float64Array(probabilities.length),
  };
  const ends = endsOf(values, count);
  if (ends.next === Infinity) {
    found.values.fill(ends.least);
    return found;
  }
  const binned = binColumn(values, starts, ends);
  const places = probabilities.map((probability) => placeOf(probability, count));
  gatherBins(binned, binsOf(binned, places));
  places.forEach((place, index) => (found.values[index] = valueAt(binned, place)));
  const shares = shareErrors(binned, found.values, places);
  const borders = probabilities.map((probability, index) => {
    const reach = studentPoint * shares[index]!;
    return [
      type7(Math.max(0, probability - reach), count),
      type7(Math.min(1, probability + reach), count),
    ] as const;
  });
  gatherBins(binned, binsOf(binned, borders.flat()));
  borders.forEach(([below, above], index) => {
    found.errors[index] = (valueAt(binned, above) - valueAt(binned, below)) / (2 * studentPoint);
  });
  return found;
}

function binsOf(binned: BinnedColumn, places: readonly number[]): number[] {
  return places.flatMap((place) => [
    binOfRank(binned, Math.floor(place)),
    binOfRank(binned, Math.ceil(place)),
  ]);
}

function valueAt(binned: BinnedColumn, place: number): number {
  const rank = Math.floor(place);
  const low = valueOfRank(binned, rank);
  return rank === place ? low : low + (valueOfRank(binned, rank + 1) - low) * (place - rank);
}

/** Standard errors of the shares of values below some borders that lie at some places, ties counted half. */
function shareErrors(binned: BinnedColumn, borders: Float64Array, places: readonly number[]): Float64Array {
  const { starts } = binned;
  const replicates = starts.length - 1;
  const bins = places.map((place) => binOfRank(binned, Math.floor(place)));
  const halves = halvesBelow(binned, borders, bins);
  return Float64Array.from(places, (_, index) => {
    const shares = new Float64Array(replicates);
    for (let replicate = 0; replicate < replicates; replicate++) {
      const size = starts[replicate + 1]! - starts[replicate]!;
      shares[replicate] = halves[replicate * places.length + index]! / (2 * size);
    }
    return Math.max(1 / starts[replicates]!, sdOf(shares, 0, replicates) / Math.sqrt(replicates));
  });
}

/** Values that differ by less than this share of themselves are equal but for the order in which they were summed. */
const tie = 1e-12;

/**
 * Counts twice the values below some borders, and once those equal to them, by replicate.
 *
 * @param bins of the borders
 * @returns replicates x borders
 */
function halvesBelow(binned: BinnedColumn, borders: Float64Array, bins: readonly number[]): Int32Array {
  const { starts, tally, segment } = binned;
  const width = borders.length;
  const replicates = starts.length - 1;
  const halves = new Int32Array(replicates * width);
  const next = Int32Array.from(bins, (bin) => segment[bin]!);
  for (let replicate = 0; replicate < replicates; replicate++) {
    const tallyRow = replicate * binned.bins;
    let counted = 0;
    let below = 0;
    for (let index = 0; index < width; index++) {
      const bin = bins[index]!;
      if (bin < counted) counted = below = 0;
      for (; counted < bin; counted++) below += tally[tallyRow + counted]!;
      const from = next[index]!;
      const to = from + tally[tallyRow + bin]!;
      next[index] = to;
      halves[replicate * width + index] = 2 * below + halvesIn(binned.unsorted, from, to, borders[index]!);
    }
  }
  return halves;
}

function halvesIn(values: Float64Array, from: number, to: number, border: number): number {
  let halves = 0;
  for (let place = from; place < to; place++) {
    const value = values[place]!;
    const above = value - border;
    if (above < -tie * Math.abs(value)) halves += 2;
    else if (above <= tie * Math.abs(value)) halves += 1;
  }
  return halves;
}
