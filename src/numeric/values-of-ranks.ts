const mostBins = 1024;
/** Stretches of at most so many values are sorted by insertion. */
const mostInserted = 48;

/** Scratch: how many values each bin holds. */
const tally = new Int32Array(mostBins + 1);
/** Scratch: where in `gathered` the next value of a bin goes, or -1 when nobody wants the bin. */
const target = new Int32Array(mostBins + 1);
/** Scratch: the values of the wanted bins, bin after bin; grows to the longest stretch seen. */
let gathered = new Float64Array(1024);

/** Values in an order of their own among which some ranks are wanted. */
interface Stretch {
  readonly values: Float64Array;
  /** Ascending, counted from the first of these values. */
  readonly ranks: readonly number[];
}

/**
 * The values that stand at some ranks, without sorting all: values are counted into bins of equal width, and only the bins
 * that hold a rank are sorted, or divided again when they are large.
 *
 * @param values in any order; not changed
 * @param ranks from 0, ascending, below the number of values
 * @returns values in the order of `ranks`, as sorting would give them, but that -0 counts as 0
 */
export function valuesOfRanks(values: Float64Array, ranks: readonly number[]): number[] {
  if (values.length <= mostInserted) return pick(insertionSorted(values.slice()), ranks);
  let low = values[0]!;
  let high = low;
  for (let index = 1; index < values.length; index++) {
    const value = values[index]!;
    if (value < low) low = value;
    if (value > high) high = value;
  }
  if (low === high) return ranks.map(() => low);
  const bins = Math.min(mostBins, values.length >> 1);
  const perUnit = bins / (high - low);
  // A range too wide or too narrow for the arithmetic.
  if (!(perUnit > 0 && perUnit < Infinity)) return pick(values.slice().sort(), ranks);
  return stretchesHolding(values, ranks, low, perUnit, bins).flatMap((stretch) =>
    valuesOfRanks(stretch.values, stretch.ranks),
  );
}

function stretchesHolding(
  values: Float64Array,
  ranks: readonly number[],
  low: number,
  perUnit: number,
  bins: number,
): Stretch[] {
  tally.fill(0, 0, bins + 1);
  for (let index = 0; index < values.length; index++) {
    const bin = ((values[index]! - low) * perUnit) | 0;
    tally[bin] = tally[bin]! + 1;
  }
  const wanted = wantedBins(ranks, bins);
  if (gathered.length < values.length) gathered = new Float64Array(values.length);
  for (let index = 0; index < values.length; index++) {
    const value = values[index]!;
    const bin = ((value - low) * perUnit) | 0;
    const place = target[bin]!;
    if (place < 0) continue;
    gathered[place] = value;
    target[bin] = place + 1;
  }
  return wanted.map(({ start, end, ranks: inside }) => ({
    values: gathered.slice(start, end),
    ranks: inside,
  }));
}

/** Reserves a place in `gathered` for each bin that holds a rank. */
function wantedBins(
  ranks: readonly number[],
  bins: number,
): { start: number; end: number; ranks: number[] }[] {
  target.fill(-1, 0, bins + 1);
  const wanted: { start: number; end: number; ranks: number[] }[] = [];
  let bin = 0;
  let below = 0;
  let reserved = 0;
  for (const rank of ranks) {
    while (bin < bins && below + tally[bin]! <= rank) below += tally[bin++]!;
    if (target[bin]! < 0) {
      target[bin] = reserved;
      wanted.push({ start: reserved, end: reserved + tally[bin]!, ranks: [] });
      reserved += tally[bin]!;
    }
    wanted[wanted.length - 1]!.ranks.push(rank - below);
  }
  return wanted;
}

function insertionSorted(values: Float64Array): Float64Array {
  for (let index = 1; index < values.length; index++) {
    const value = values[index]!;
    let place = index;
    for (; place > 0 && values[place - 1]! > value; place--) values[place] = values[place - 1]!;
    values[place] = value;
  }
  return values;
}

function pick(sorted: Float64Array, ranks: readonly number[]): number[] {
  return ranks.map((rank) => sorted[rank]!);
}
