import { midRanks } from "./mid-ranks.ts";

/** Cells a column is sorted into. */
export const cellCount = 2048;
/** A cell may hold at most this share of the values, unless all that it holds are equal. */
const mostOfAll = 1 / 100;

/** Scratch: by cell, 1 when it holds more than that; and one of its values. */
const isFull = new Uint8Array(cellCount);
const sample = new Float64Array(cellCount);

/** A column of values sorted into cells: which cell each is in, and how many each holds. */
export interface OrderedCells {
  /** Cell by draw, ascending with the values. */
  readonly cells: Uint16Array;
  /** Values by cell: length `cellCount`. */
  readonly tally: Int32Array;
}

/**
 * Makes room for a column's cells, to be used for one column after the other.
 *
 * @param draws values a column has
 */
export function makeOrderedCells(draws: number): OrderedCells {
  return { cells: new Uint16Array(draws), tally: new Int32Array(cellCount) };
}

/**
 * Sorts a column into cells that lie in the order of the values: cells of equal width, or of equal numbers where those
 * would crowd more than a hundredth of unequal values into one. What is in one cell then counts as tied.
 *
 * @param values finite
 * @param into receives cells and tally
 * @returns false when all values are equal, and nothing is sorted
 */
export function sortIntoCells(values: Float64Array, into: OrderedCells): boolean {
  const { low, high } = rangeOf(values);
  if (low === high) return false;
  const perUnit = (cellCount - 1) / (high - low);
  const isSortable = perUnit > 0 && perUnit < Infinity;
  if (isSortable) sortByWidth(values, low, perUnit, into);
  if (!isSortable || isCrowded(values, into)) sortByRank(values, into);
  return true;
}

function rangeOf(values: Float64Array): { low: number; high: number } {
  let low = values[0]!;
  let high = low;
  for (let draw = 1; draw < values.length; draw++) {
    const value = values[draw]!;
    low = value < low ? value : low;
    high = value > high ? value : high;
  }
  return { low, high };
}

function sortByWidth(
  values: Float64Array,
  low: number,
  perUnit: number,
  { cells, tally }: OrderedCells,
): void {
  tally.fill(0);
  for (let draw = 0; draw < values.length; draw++) {
    const cell = ((values[draw]! - low) * perUnit) | 0;
    cells[draw] = cell;
    tally[cell] = tally[cell]! + 1;
  }
}

/** Whether a cell holds more than it may, of values that are not all equal. */
function isCrowded(values: Float64Array, { cells, tally }: OrderedCells): boolean {
  const most = Math.max(1, values.length * mostOfAll);
  const full = isFull;
  const one = sample;
  let fullest = 0;
  for (let cell = 0; cell < cellCount; cell++) {
    const held = tally[cell]!;
    full[cell] = held > most ? 1 : 0;
    fullest = held > fullest ? held : fullest;
  }
  if (fullest <= most) return false;
  for (let draw = 0; draw < values.length; draw++) one[cells[draw]!] = values[draw]!;
  for (let draw = 0; draw < values.length; draw++) {
    const cell = cells[draw]!;
    if (full[cell] === 1 && one[cell] !== values[draw]) return true;
  }
  return false;
}

function sortByRank(values: Float64Array, { cells, tally }: OrderedCells): void {
  const ranks = midRanks(values);
  const perRank = cellCount / values.length;
  tally.fill(0);
  for (let draw = 0; draw < values.length; draw++) {
    const cell = Math.floor((ranks[draw]! - 0.5) * perRank);
    cells[draw] = cell;
    tally[cell] = tally[cell]! + 1;
  }
}
