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
  /** The same values, a bin's in the order of the column. */
  unsorted: Float64Array;
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
  unsorted: new Float64Array(0),
  gatheredCount: 0,
};

/** Values looked at to see where most lie, and the share of them that the bins are to span, and a quarter more. */
const sampled = 64;
const spanned = 0.97;
const sample = new Float64Array(sampled);

/**
 * Counts a column into bins: the least value has one of its own, since it is often that of most draws, then bins of equal
 * width up to where few values lie, and the last holds the rest. Valid until the next call.
 *
 * @param values every stretch after the other, not all equal
 * @param starts where each stretch begins, and the number of values
 */
export function binColumn(values: Float64Array, starts: Int32Array, ends: ColumnEnds): BinnedColumn {
  const stretches = starts.length - 1;
  const count = starts[stretches]!;
  const bins = count < manyValues ? mostBins / 4 : mostBins;
  if (shared.binOf.length < count) {
    shared.binOf = new Uint16Array(count);
    shared.gathered = new Float64Array(count);
    shared.unsorted = new Float64Array(count);
  }
  if (shared.tally.length < stretches * bins) shared.tally = new Int32Array(stretches * bins);
  const binned = Object.assign(shared, { values, starts, bins, gatheredCount: 0 });
  const width = (bins - 1) / (tailOf(values, count, ends) - ends.next);
  // A range beyond the arithmetic is one bin.
  tallyBins(binned, ends, width > 0 && width < Infinity ? width : 0);
  addUp(binned);
  return binned;
}

/** The least value of a column, the next that differs from it, and the greatest. */
export interface ColumnEnds {
  readonly least: number;
  readonly next: number;
  readonly greatest: number;
}

/**
 * Finds the ends of a column.
 *
 * @param count of values, at least 1
 * @returns `next` is Infinity where all are equal
 */
export function endsOf(values: Float64Array, count: number): ColumnEnds {
  let least = Infinity;
  let next = Infinity;
  let greatest = -Infinity;
  for (let index = 0; index < count; index++) {
    const value = values[index]!;
    if (value > greatest) greatest = value;
    if (value >= next) continue;
    if (value < least) {
      next = least;
      least = value;
    } else if (value > least) {
      next = value;
    }
  }
  return { least, next, greatest };
}

/** Where the bins of equal width end. */
function tailOf(values: Float64Array, count: number, { least, next, greatest }: ColumnEnds): number {
  let taken = 0;
  for (let index = 0; index < sampled; index++) {
    const value = values[Math.floor((index * count) / sampled)]!;
    if (value > least) sample[taken++] = value;
  }
  const ascending = sample.subarray(0, taken).sort();
  const high = ascending[Math.floor((taken - 1) * spanned)] ?? greatest;
  const tail = next + 1.25 * (high - next);
  return tail > next && tail < greatest ? tail : greatest;
}

function tallyBins(
  { values, starts, bins, binOf, tally }: BinnedColumn,
  { least, next }: ColumnEnds,
  perUnit: number,
): void {
  const last = bins - 1;
  const stretches = starts.length - 1;
  tally.fill(0, 0, stretches * bins);
  for (let stretch = 0; stretch < stretches; stretch++) {
    const row = stretch * bins;
    const end = starts[stretch + 1]!;
    for (let index = starts[stretch]!; index < end; index++) {
      const value = values[index]!;
      const place = (value - next) * perUnit + 1;
      const bin = value === least ? 0 : place < last ? place | 0 : last;
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
  const { values, starts, bins, binOf, below, segment, gathered, unsorted } = binned;
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
  for (const bin of fresh) {
    const from = segment[bin]!;
    unsorted.set(gathered.subarray(from, target[bin]), from);
    sortSegment(gathered, from, target[bin]!);
  }
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
  if (values[from] === values[to - 1] && isConstant(values, from, to)) return;
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

function isConstant(values: Float64Array, from: number, to: number): boolean {
  const first = values[from];
  for (let index = from + 1; index < to; index++) if (values[index] !== first) return false;
  return true;
}
