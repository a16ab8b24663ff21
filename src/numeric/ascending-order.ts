const mostCells = 4096;
/** Stretches of at most so many values are sorted by insertion. */
const mostInserted = 24;

/**
 * The places of values in ascending order: they are spread over cells of equal width between the lowest and the highest,
 * and every cell that holds several is ordered the same way.
 *
 * @param values finite, any order; not changed
 * @returns places from 0, those of equal values in any order
 */
export function ascendingOrder(values: Float64Array): Int32Array {
  const order = new Int32Array(values.length);
  for (let place = 0; place < order.length; place++) order[place] = place;
  sortStretch(values, order, 0, order.length);
  return order;
}

/** Each level narrows the range by the number of cells, so that a few hundred levels exhaust the range of doubles. */
function sortStretch(values: Float64Array, order: Int32Array, start: number, end: number): void {
  const count = end - start;
  if (count <= mostInserted) return insert(values, order, start, end);
  let low = values[order[start]!]!;
  let high = low;
  for (let at = start + 1; at < end; at++) {
    const value = values[order[at]!]!;
    if (value < low) low = value;
    else if (value > high) high = value;
  }
  if (low === high) return;
  const cells = Math.min(mostCells, count);
  const perUnit = (cells - 1) / (high - low);
  if (!(perUnit > 0 && perUnit < Infinity)) {
    // A range too wide or too narrow for the arithmetic.
    order.subarray(start, end).sort((a, b) => (values[a]! < values[b]! ? -1 : 1));
    return;
  }
  const ends = spread(values, order, start, end, low, perUnit, cells);
  for (let cell = 0, from = start; cell < cells; from = ends[cell++]!) {
    if (ends[cell]! > from + 1) sortStretch(values, order, from, ends[cell]!);
  }
}

/** @returns where each cell ends */
function spread(
  values: Float64Array,
  order: Int32Array,
  start: number,
  end: number,
  low: number,
  perUnit: number,
  cells: number,
): Int32Array {
  const ends = new Int32Array(cells);
  for (let at = start; at < end; at++) {
    const cell = ((values[order[at]!]! - low) * perUnit) | 0;
    ends[cell] = ends[cell]! + 1;
  }
  for (let cell = 0, from = start; cell < cells; cell++) {
    const held = ends[cell]!;
    ends[cell] = from;
    from += held;
  }
  const before = order.slice(start, end);
  for (let at = 0; at < before.length; at++) {
    const place = before[at]!;
    const cell = ((values[place]! - low) * perUnit) | 0;
    const to = ends[cell]!;
    order[to] = place;
    ends[cell] = to + 1;
  }
  return ends;
}

function insert(values: Float64Array, order: Int32Array, start: number, end: number): void {
  for (let at = start + 1; at < end; at++) {
    const place = order[at]!;
    const value = values[place]!;
    let to = at;
    for (; to > start && values[order[to - 1]!]! > value; to--) order[to] = order[to - 1]!;
    order[to] = place;
  }
}
