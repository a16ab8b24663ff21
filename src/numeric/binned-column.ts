/** Most bins; fewer values are counted into a quarter as many. */
const mostBins = 1024;
const manyValues = 65_536;
/** Segments of at most so many values are sorted by insertion. */
const mostInserted = 40;

/** A column counted into bins of equal width; the values of a bin are gathered when first asked for. */
export interface BinnedColumn {
  readonly values: Float64Array;
  /** Where each stretch begins, and the number of values. */
  readonly starts: Int32Array;
  bins: number;
  /** By value: its bin. */
  binOf: Uint16Array;
  /** Values by stretch x bin. */
  tally: Int32Array;
  /** By bin: values in lower bins; length bins + 1. */
  readonly below: Int32Array;
  /** By bin: where its values begin among the gathered, or -1. */
  readonly segment: Int32Array;
  gathered: Float64Array;
  gatheredCount: number;
}

/** One for all, since only one column is looked at at a time: its arrays are as large as the longest column so far. */
const shared = {
  values: new Float64Array(0),
  starts: new Int32Array(0),
  bins: 0,
  binOf: new Uint16Array(0),
  tally: new Int32Array(0),
  below: new Int32Array(mostBins + 1),
  segment: new Int32Array(mostBins),
  gathered: new Float64Array(0),
  gatheredCount: 0,
};

/**
 * Counts a column into bins. Valid until the next call.
 *
 * @param values every stretch after the other
 * @param starts where each stretch begins, and the number of values
 * @param low the least value
 * @param high the greatest, > low
 */
export function binColumn(values: Float64Array, starts: Int32Array, low: number, high: number): BinnedColumn {
  const stretches = starts.length - 1;
  const count = starts[stretches]!;
  const bins = count < manyValues ? mostBins / 4 : mostBins;
  if (shared.binOf.length < count) {
    shared.binOf = new Uint16Array(count);
    shared.gathered = new Float64Array(count);
  }
  if (shared.tally.length < stretches * bins) shared.tally = new Int32Array(stretches * bins);
  const binned = Object.assign(shared, { values, starts, bins, gatheredCount: 0 });
  // A range beyond the arithmetic is one bin.
  const width = bins / (high - low);
  tallyBins(binned, low, width > 0 && width < Infinity ? width : 0);
  addUp(binned);
  return binned;
}

function tallyBins({ values, starts, bins, binOf, tally }: BinnedColumn, low: number, perUnit: number): void {
  const last = bins - 1;
  const stretches = starts.length - 1;
  tally.fill(0, 0, stretches * bins);
  for (let stretch = 0; stretch < stretches; stretch++) {
    const row = stretch * bins;
    const end = starts[stretch + 1]!;
    for (let index = starts[stretch]!; index < end; index++) {
      const place = ((values[index]! - low) * perUnit) | 0;
      const bin = place < last ? place : last;
      binOf[index] = bin;
      tally[row + bin] = tally[row + bin]! + 1;
    }
  }
}

function addUp({ starts, bins, tally, below, segment }: BinnedColumn): void {
  const stretches = starts.length - 1;
  segment.fill(-1, 0, bins);
  below.fill(0, 0, bins + 1);
  for (let stretch = 0; stretch < stretches; stretch++) {
    const row = stretch * bins;
    for (let bin = 0; bin < bins; bin++) below[bin + 1] = below[bin + 1]! + tally[row + bin]!;
  }
  for (let bin = 0; bin < bins; bin++) below[bin + 1] = below[bin + 1]! + below[bin]!;
}

/**
 * The bin that holds a rank.
 *
 * @param rank from 0
 */
export function binOfRank({ below, bins }: BinnedColumn, rank: number): number {
  let low = 0;
  let high = bins - 1;
  while (low < high) {
    const middle = (low + high) >> 1;
    if (below[middle + 1]! > rank) high = middle;
    else low = middle + 1;
  }
  return low;
}

/** Where the next value of each bin goes, or -1 when the bin is not being gathered. */
const target = new Int32Array(mostBins);

/**
 * Gathers and sorts the values of some bins.
 *
 * @param wanted bins, any order; those gathered before are left alone
 */
export function gatherBins(binned: BinnedColumn, wanted: Iterable<number>): void {
  const { values, starts, bins, binOf, below, segment, gathered } = binned;
  const fresh = [...new Set(wanted)].filter((bin) => segment[bin] === -1);
  if (fresh.length === 0) return;
  target.fill(-1, 0, bins);
  for (const bin of fresh) {
    target[bin] = segment[bin] = binned.gatheredCount;
    binned.gatheredCount += below[bin + 1]! - below[bin]!;
  }
  const count = starts[starts.length - 1]!;
  for (let index = 0; index < count; index++) {
    const bin = binOf[index]!;
    const place = target[bin]!;
    if (place < 0) continue;
    gathered[place] = values[index]!;
    target[bin] = place + 1;
  }
  for (const bin of fresh) sortSegment(gathered, segment[bin]!, target[bin]!);
}

/**
 * The value that stands at a rank.
 *
 * @param rank from 0; its bin has been gathered
 */
export function valueOfRank(binned: BinnedColumn, rank: number): number {
  const bin = binOfRank(binned, rank);
  return binned.gathered[binned.segment[bin]! + rank - binned.below[bin]!]!;
}

function sortSegment(values: Float64Array, from: number, to: number): void {
  if (to - from > mostInserted) {
    values.subarray(from, to).sort();
    return;
  }
  for (let index = from + 1; index < to; index++) {
    const value = values[index]!;
    let place = index;
    for (; place > from && values[place - 1]! > value; place--) values[place] = values[place - 1]!;
    values[place] = value;
  }
}
