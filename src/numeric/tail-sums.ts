import type { Border } from "./border-group.ts";
import { rowStride } from "./draw-rows.ts";

/** Columns that are added up: the first so many of a row. */
const columnCount = 3;
/** Places a group takes: how many draws, then the sums. */
export const tailStride = 1 + columnCount;
/** Groups of a border: far beyond it, near beyond it, at it, near it on the side of the middle. */
export const tailGroups = { far: 0, near: 1, at: 2, inner: 3 } as const;
/** Places the groups of one border take; those of the low border come before those of the high one. */
export const borderSize = 4 * tailStride;
/** Places the groups of one stretch take. */
export const tailSize = 2 * borderSize;

const lowFirst = 0;
const highFirst = 4;

/** As many as a cell's number can tell apart. */
const mostCells = 65_536;
/** Scratch: by cell, its group, and 1 when it lies in a tail or near one; by place, the draws there. */
const groupOf = new Uint8Array(mostCells);
const isInTail = new Uint8Array(mostCells);
let inTails = new Int32Array(1024);

/**
 * Adds up the first three columns of rows over both tails of the cells something is sorted into, stretch by stretch, in the
 * order of the draws. Sums of n terms in double precision: relative error below n 2^-53 of the sum of their sizes.
 *
 * @param cells by draw
 * @param cellCount cells there are
 * @param low the lower border
 * @param high the upper border; not below the lower one, and near none of the same cells but where both are at one cell
 * @param starts where each stretch begins, and the end
 * @param rows see `layRows`
 * @returns stretch x border x group x (draws, a, b, c)
 */
export function sumTails(
  cells: Uint16Array,
  cellCount: number,
  low: Border,
  high: Border,
  starts: Int32Array,
  rows: Float64Array,
): Float64Array {
  nameGroups(cellCount, low, high);
  const sums = new Float64Array((starts.length - 1) * tailSize);
  for (let stretch = 0; stretch < starts.length - 1; stretch++) {
    const base = stretch * tailSize;
    const held = listTails(cells, starts[stretch]!, starts[stretch + 1]!);
    addTails(cells, held, rows, sums, base);
    if (low.at === high.at) {
      const at = base + tailGroups.at * tailStride;
      sums.copyWithin(at + borderSize, at, at + tailStride);
    }
  }
  return sums;
}

function nameGroups(cellCount: number, low: Border, high: Border): void {
  const { far, near, at, inner } = tailGroups;
  isInTail.fill(0, 0, cellCount);
  isInTail.fill(1, 0, low.last + 1);
  isInTail.fill(1, high.first, cellCount);
  groupOf.fill(highFirst + inner, high.first, high.at);
  groupOf.fill(highFirst + near, high.at, high.last + 1);
  groupOf.fill(highFirst + far, high.last + 1, cellCount);
  groupOf[high.at] = highFirst + at;
  groupOf.fill(lowFirst + far, 0, low.first);
  groupOf.fill(lowFirst + near, low.first, low.at);
  groupOf.fill(lowFirst + inner, low.at, low.last + 1);
  groupOf[low.at] = lowFirst + at;
}

/** Lists the draws in the tails, since a branch on chance is what costs most. */
function listTails(cells: Uint16Array, start: number, end: number): number {
  if (inTails.length <= end - start) inTails = new Int32Array(end - start + 1);
  const list = inTails;
  const isIn = isInTail;
  let held = 0;
  for (let draw = start; draw < end; draw++) {
    list[held] = draw;
    held += isIn[cells[draw]!]!;
  }
  return held;
}

function addTails(
  cells: Uint16Array,
  held: number,
  rows: Float64Array,
  sums: Float64Array,
  base: number,
): void {
  const list = inTails;
  const groups = groupOf;
  for (let at = 0; at < held; at++) {
    const draw = list[at]!;
    const place = base + groups[cells[draw]!]! * tailStride;
    const row = draw * rowStride;
    sums[place] = sums[place]! + 1;
    sums[place + 1] = sums[place + 1]! + rows[row]!;
    sums[place + 2] = sums[place + 2]! + rows[row + 1]!;
    sums[place + 3] = sums[place + 3]! + rows[row + 2]!;
  }
}
