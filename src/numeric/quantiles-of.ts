/** Fewer values than this are simply sorted. */
const sortBelow = 1024;
/** Bins a stretch is divided into. */
const mostBins = 1024;

/** Scratch: how many values lie below each bin, and which of the wanted bins it is, or -1. */
const starts = new Int32Array(mostBins + 1);
const binOf = new Int32Array(mostBins);

/**
 * Quantiles of a stretch of values without sorting it whole, Hyndman & Fan type 7.
 *
 * @param values any order; not changed
 * @param start first index
 * @param end one past the last index, > start
 * @param probabilities in [0, 1], any order
 * @returns one quantile for each probability, exactly what sorting would give
 * @see Hyndman & Fan 1996, "Sample quantiles in statistical packages"
 */
export function quantilesOf(
  values: Float64Array,
  start: number,
  end: number,
  probabilities: readonly number[],
): number[] {
  const last = end - start - 1;
  const places = probabilities.map((probability) => last * probability);
  const ranks = new Set(
    places.flatMap((place) => [Math.floor(place), Math.min(last, Math.floor(place) + 1)]),
  );
  const found = new Map<number, number>();
  pick(
    values.subarray(start, end),
    0,
    [...ranks].sort((a, b) => a - b),
    found,
  );
  return places.map((place) => {
    const below = Math.floor(place);
    const low = found.get(below)!;
    const high = found.get(Math.min(last, below + 1))!;
    return low + (high - low) * (place - below);
  });
}

/**
 * Finds the values of some ranks: counts the values into bins of equal width and goes on in each bin that holds a rank.
 *
 * @param offset how many values of the whole stretch are smaller than these
 * @param ranks ascending, all among these values
 */
function pick(
  values: Float64Array,
  offset: number,
  ranks: readonly number[],
  found: Map<number, number>,
): void {
  if (values.length < sortBelow) return pickSorted(values, offset, ranks, found);
  let low = values[0]!;
  let high = low;
  for (let index = 1; index < values.length; index++) {
    const value = values[index]!;
    if (value < low) low = value;
    else if (value > high) high = value;
  }
  const perUnit = mostBins / (high - low);
  if (low === high) return ranks.forEach((rank) => found.set(rank, low));
  // A range too narrow or too wide to divide.
  if (!(perUnit > 0 && perUnit < Infinity)) return pickSorted(values, offset, ranks, found);
  countInto(values, low, perUnit);
  for (const { members, from, inside } of binsHolding(values, low, perUnit, offset, ranks)) {
    pick(members, from, inside, found);
  }
}

function pickSorted(
  values: Float64Array,
  offset: number,
  ranks: readonly number[],
  found: Map<number, number>,
): void {
  const sorted = values.slice().sort();
  for (const rank of ranks) found.set(rank, sorted[rank - offset]!);
}

/** Leaves in `starts` how many values lie below each bin. */
function countInto(values: Float64Array, low: number, perUnit: number): void {
  starts.fill(0);
  for (let index = 0; index < values.length; index++) {
    const bin = Math.min(mostBins - 1, ((values[index]! - low) * perUnit) | 0) + 1;
    starts[bin] = starts[bin]! + 1;
  }
  for (let bin = 0; bin < mostBins; bin++) starts[bin + 1] = starts[bin + 1]! + starts[bin]!;
}

interface Bin {
  readonly members: Float64Array;
  /** How many values of the whole stretch are smaller. */
  readonly from: number;
  readonly inside: number[];
  size: number;
}

function binsHolding(
  values: Float64Array,
  low: number,
  perUnit: number,
  offset: number,
  ranks: readonly number[],
): Bin[] {
  const held: Bin[] = [];
  binOf.fill(-1);
  let bin = 0;
  for (const rank of ranks) {
    while (starts[bin + 1]! <= rank - offset) bin++;
    if (binOf[bin]! < 0) {
      binOf[bin] = held.length;
      const members = new Float64Array(starts[bin + 1]! - starts[bin]!);
      held.push({ members, from: offset + starts[bin]!, inside: [], size: 0 });
    }
    held[binOf[bin]!]!.inside.push(rank);
  }
  for (let index = 0; index < values.length; index++) {
    const value = values[index]!;
    const place = binOf[Math.min(mostBins - 1, ((value - low) * perUnit) | 0)]!;
    if (place >= 0) {
      const into = held[place]!;
      into.members[into.size++] = value;
    }
  }
  return held;
}
