import { fillIndependent } from "../numeric/fill-independent.ts";
import { fillStratified } from "../numeric/fill-stratified.ts";
import { fillWithinSlices } from "../numeric/fill-within-slices.ts";
import { normalsFromUint32 } from "../numeric/normals-from-uint32.ts";
import { quantilesFromZ } from "../numeric/quantiles-from-z.ts";
import { stepsFromScores } from "../numeric/steps-from-scores.ts";
import { streamState } from "../numeric/stream-state.ts";
import type { Sampling } from "../domain/estimate-result.ts";
import type { DrawList } from "./draw-list.ts";
import type { Quantity } from "./quantity.ts";

/** Most draws a chunk holds. */
export const chunkCapacity = 1024;

/** The draws of one quantity in the chunk at hand: the quantity's position in the program. */
export type Column = number;

/** Where the quantities and the drivers are found. */
interface Quantities {
  /** Grows when a draw first needs another try or departure. */
  readonly quantities: readonly Quantity[];
  /** In the order of declaration. */
  readonly drivers: readonly Quantity[];
}

/** The random columns of one chunk. */
export interface Columns {
  readonly of: Quantities;
  readonly seed: number;
  readonly sampling: Sampling | "typical";
  /** Scores of each driver in this chunk, by driver. */
  readonly driverScores: readonly Float64Array[];
  /** By driver: the draws in ascending order of its score, where draws are stratified. */
  readonly driverOrders: readonly Int32Array[];
  /** By column that is read more than once: its draws, and the chunk (by serial number) they are of. */
  readonly kept: Float64Array[];
  readonly keptIn: number[];
  chunk: number;
  count: number;
  /** Goes up with every chunk opened. */
  serial: number;
  readonly whole: DrawList;
  readonly state: Uint32Array;
  readonly words: Uint32Array;
  readonly gathered: Uint32Array;
  readonly places: Int32Array;
  readonly scores: Float64Array;
}

/**
 * Makes the columns of a program.
 *
 * @param seed integer in [0, 2^53)
 * @param sampling how draws are placed; "typical" gives every quantity its typical value
 * @param of the program's quantities and drivers
 * @param whole the list of all draws of the chunk
 */
export function makeColumns(
  seed: number,
  sampling: Sampling | "typical",
  of: Quantities,
  whole: DrawList,
): Columns {
  return {
    of,
    seed,
    sampling,
    driverScores: of.drivers.map(() => new Float64Array(chunkCapacity)),
    driverOrders: of.drivers.map(() => new Int32Array(chunkCapacity)),
    kept: [],
    keptIn: [],
    chunk: 0,
    count: 0,
    serial: 0,
    whole,
    state: new Uint32Array(4),
    words: new Uint32Array(chunkCapacity),
    gathered: new Uint32Array(chunkCapacity),
    places: new Int32Array(chunkCapacity),
    scores: new Float64Array(chunkCapacity),
  };
}

/** Turns to another chunk: the drivers are drawn, what was kept is stale from here on. */
export function openChunk(columns: Columns, chunk: number, count: number): void {
  columns.chunk = chunk;
  columns.count = count;
  columns.serial += 1;
  columns.whole.count = count;
  if (columns.sampling === "typical") return;
  columns.of.drivers.forEach((driver, position) => {
    fillScores(columns, driver, columns.whole);
    columns.driverScores[position]!.set(columns.scores.subarray(0, count));
    if (columns.sampling === "stratified") orderStrata(columns.words, count, columns.driverOrders[position]!);
  });
}

/** The draws in the order of their words, of which each stratum holds one. */
function orderStrata(words: Uint32Array, count: number, order: Int32Array): void {
  for (let draw = 0; draw < count; draw++) {
    order[Math.floor(((words[draw]! + 0.5) * count) / 0x100000000)] = draw;
  }
}

/**
 * Draws a column on some draws of the chunk. Its stream is run for the whole chunk whoever asks, so that a draw's value
 * does not depend on the list.
 *
 * @param list which draws
 * @param out receives the values, in the order of the list
 */
export function drawColumn(columns: Columns, column: Column, list: DrawList, out: Float64Array): void {
  const quantity = columns.of.quantities[column]!;
  const { kind, values, thresholds, floor } = quantity;
  const { count } = list;
  if (columns.sampling === "typical") {
    out.fill(quantity.typical, 0, count);
  } else if (kind === "constant") {
    out.fill(Math.max(values[0]!, floor), 0, count);
  } else {
    fillScores(columns, quantity, list);
    if (kind === "table") quantilesFromZ(values, columns.scores, out, count);
    else stepsFromScores(thresholds, values, columns.scores, out, count);
    if (floor > values[0]!) raiseTo(floor, out, count);
  }
}

/** A column that is read more than once in a chunk: drawn when first asked for. @returns its values by draw */
export function keptColumn(columns: Columns, column: Column): Float64Array {
  const kept = (columns.kept[column] ??= new Float64Array(chunkCapacity));
  if (columns.keptIn[column] !== columns.serial) {
    columns.keptIn[column] = columns.serial;
    drawColumn(columns, column, columns.whole, kept);
  }
  return kept;
}

/** Scores of a quantity on the draws of a list, in its order, into `columns.scores`. */
function fillScores(columns: Columns, quantity: Quantity, list: DrawList): void {
  const { scores, count } = columns;
  const { drivers, loadings, residual } = quantity.mixture;
  fillWords(columns, quantity);
  normalsFromUint32(list.isWhole ? columns.words : gather(columns, list), scores, list.count);
  for (let term = 0; term < drivers.length; term++) {
    const kept = term === 0 ? residual : 1;
    const driver = columns.driverScores[drivers[term]!]!;
    if (list.isWhole) mixIn(kept, loadings[term]!, driver, scores, count);
    else mixInSome(kept, loadings[term]!, driver, list, scores);
  }
}

/** Words of a quantity's own stream for the whole chunk, into `columns.words`: even in themselves and beside its driver. */
export function fillWords(columns: Columns, { key, mixture, scattered }: Quantity): void {
  const { state, words, count, places } = columns;
  streamState(key, columns.seed, columns.chunk, state);
  if (columns.sampling !== "stratified" || scattered === true) fillIndependent(state, words, count);
  else if (mixture.main < 0) fillStratified(state, words, count, places);
  else fillWithinSlices(state, words, count, columns.driverOrders[mixture.main]!, places);
}

/** The words of a list's draws, in its order. */
function gather({ words, gathered }: Columns, { draws, count }: DrawList): Uint32Array {
  for (let place = 0; place < count; place++) gathered[place] = words[draws[place]!]!;
  return gathered;
}

/** scores = kept x scores + loading x driver */
function mixIn(
  kept: number,
  loading: number,
  driver: Float64Array,
  scores: Float64Array,
  count: number,
): void {
  for (let draw = 0; draw < count; draw++) scores[draw] = kept * scores[draw]! + loading * driver[draw]!;
}

/** The same on the draws of a list. */
function mixInSome(
  kept: number,
  loading: number,
  driver: Float64Array,
  { draws, count }: DrawList,
  scores: Float64Array,
): void {
  for (let place = 0; place < count; place++) {
    scores[place] = kept * scores[place]! + loading * driver[draws[place]!]!;
  }
}

function raiseTo(floor: number, values: Float64Array, count: number): void {
  for (let draw = 0; draw < count; draw++) if (values[draw]! < floor) values[draw] = floor;
}
