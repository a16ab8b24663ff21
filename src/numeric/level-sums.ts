import { rowStride } from "./draw-rows.ts";

/** Places a level takes: how many draws, then the sums of the six columns. */
export const levelStride = 1 + rowStride;

/** Scratch: draws in which an event happens; grows to the longest stretch seen. */
let happened = new Int32Array(1024);

/**
 * Adds up the columns of rows by the level that something has, stretch by stretch, in the order of the draws. Draws of
 * level 0 are passed over: they are what the others leave of the stretch's totals. Sums of n terms in double precision:
 * relative error below n 2^-53 of the sum of their sizes.
 *
 * @param levels by draw, below `count`
 * @param count levels there may be, at least 2
 * @param starts where each stretch begins, and the end
 * @param rows see `layRows`
 * @param totals stretch x (draws, sums of the six columns)
 * @returns stretch x level x (draws, sums of the six columns)
 */
export function sumLevels(
  levels: Uint8Array,
  count: number,
  starts: Int32Array,
  rows: Float64Array,
  totals: Float64Array,
): Float64Array {
  const sums = new Float64Array((starts.length - 1) * count * levelStride);
  for (let stretch = 0; stretch < starts.length - 1; stretch++) {
    const base = stretch * count * levelStride;
    const start = starts[stretch]!;
    const end = starts[stretch + 1]!;
    if (count === 2) addEvent(levels, start, end, rows, sums, base + levelStride);
    else addLevels(levels, start, end, rows, sums, base);
    leaveTheRest(sums, base, count, totals, stretch * levelStride);
  }
  return sums;
}

function addLevels(
  levels: Uint8Array,
  start: number,
  end: number,
  rows: Float64Array,
  sums: Float64Array,
  base: number,
): void {
  for (let draw = start; draw < end; draw++) {
    const level = levels[draw]!;
    if (level === 0) continue;
    const place = base + level * levelStride;
    const row = draw * rowStride;
    sums[place] = sums[place]! + 1;
    sums[place + 1] = sums[place + 1]! + rows[row]!;
    sums[place + 2] = sums[place + 2]! + rows[row + 1]!;
    sums[place + 3] = sums[place + 3]! + rows[row + 2]!;
    sums[place + 4] = sums[place + 4]! + rows[row + 3]!;
    sums[place + 5] = sums[place + 5]! + rows[row + 4]!;
    sums[place + 6] = sums[place + 6]! + rows[row + 5]!;
  }
}

/** First lists the draws, since a branch on chance is what costs most. */
function addEvent(
  levels: Uint8Array,
  start: number,
  end: number,
  rows: Float64Array,
  sums: Float64Array,
  place: number,
): void {
  if (happened.length <= end - start) happened = new Int32Array(end - start + 1);
  const list = happened;
  let held = 0;
  for (let draw = start; draw < end; draw++) {
    list[held] = draw;
    held += levels[draw]!;
  }
  let a = 0;
  let b = 0;
  let c = 0;
  let p = 0;
  let q = 0;
  let r = 0;
  for (let at = 0; at < held; at++) {
    const row = list[at]! * rowStride;
    a += rows[row]!;
    b += rows[row + 1]!;
    c += rows[row + 2]!;
    p += rows[row + 3]!;
    q += rows[row + 4]!;
    r += rows[row + 5]!;
  }
  sums[place] = held;
  sums[place + 1] = a;
  sums[place + 2] = b;
  sums[place + 3] = c;
  sums[place + 4] = p;
  sums[place + 5] = q;
  sums[place + 6] = r;
}

function leaveTheRest(
  sums: Float64Array,
  base: number,
  count: number,
  totals: Float64Array,
  from: number,
): void {
  for (let at = 0; at < levelStride; at++) {
    let rest = totals[from + at]!;
    for (let level = 1; level < count; level++) rest -= sums[base + level * levelStride + at]!;
    sums[base + at] = rest;
  }
}
