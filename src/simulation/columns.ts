import { fillIndependent } from "../numeric/fill-independent.ts";
import { fillStratified } from "../numeric/fill-stratified.ts";
import { normalsFromUint32 } from "../numeric/normals-from-uint32.ts";
import { quantilesFromZ } from "../numeric/quantiles-from-z.ts";
import { streamState } from "../numeric/stream-state.ts";
import type { Sampling } from "../domain/estimate-result.ts";
import type { Quantity } from "./quantity.ts";

/** Most draws a chunk holds. */
export const chunkCapacity = 1024;

/**
 * Draws of one column that lie together. A draw reads hundreds of columns: in blocks this small all that it reads lies
 * in a few dozen pages of memory, which is what makes the reading fast.
 */
const blockDraws = 32;

/** A constant column is good for every chunk there is. */
const everyChunk = 0x7fffffff;

/** The draws of one quantity in the chunk at hand: the quantity's position in the program. */
export type Column = number;

/** Where the quantities and the drivers are found. */
interface Quantities {
  /** Grows when a draw first needs another try or departure. */
  readonly quantities: readonly Quantity[];
  /** In the order of declaration. */
  readonly drivers: readonly Quantity[];
}

/** All columns of one chunk; each is filled when first asked for. */
export interface Columns {
  readonly of: Quantities;
  readonly seed: number;
  readonly sampling: Sampling | "typical";
  /** Draw d of column c lies at (block of d x width + c) x 32 + place of d in its block. */
  values: Float64Array;
  /** Columns and blocks of draws there is room for. */
  width: number;
  blocks: number;
  /** Where the draw at hand lies in column 0. */
  base: number;
  /** By column: the last chunk, by its serial number, that its draws are good for. */
  goodFor: Int32Array;
  /** Scores of each driver in this chunk. */
  readonly driverScores: readonly Float64Array[];
  chunk: number;
  count: number;
  /** Goes up with every chunk opened, so that a column knows whether its draws are this chunk's. */
  serial: number;
  readonly state: Uint32Array;
  readonly bits: Uint32Array;
  readonly strata: Int32Array;
  readonly scores: Float64Array;
  readonly filled: Float64Array;
}

/**
 * Makes the columns of a program.
 *
 * @param seed integer in [0, 2^53)
 * @param sampling how draws are placed; "typical" gives every quantity its typical value
 * @param of the program's quantities and drivers
 */
export function makeColumns(seed: number, sampling: Sampling | "typical", of: Quantities): Columns {
  return {
    of,
    seed,
    sampling,
    values: new Float64Array(0),
    width: of.quantities.length,
    blocks: 0,
    base: 0,
    goodFor: new Int32Array(of.quantities.length),
    driverScores: of.drivers.map(() => new Float64Array(chunkCapacity)),
    chunk: 0,
    count: 0,
    serial: 0,
    state: new Uint32Array(4),
    bits: new Uint32Array(chunkCapacity),
    strata: new Int32Array(chunkCapacity),
    scores: new Float64Array(chunkCapacity),
    filled: new Float64Array(chunkCapacity),
  };
}

/** Turns to another chunk: the drivers are drawn, every other column is stale from here on. */
export function openChunk(columns: Columns, chunk: number, count: number): void {
  columns.chunk = chunk;
  columns.count = count;
  columns.serial += 1;
  const blocks = Math.ceil(count / blockDraws);
  if (blocks > columns.blocks) {
    columns.blocks = blocks;
    columns.values = new Float64Array(blocks * columns.width * blockDraws);
    columns.goodFor.fill(0);
  }
  if (columns.sampling === "typical") return;
  columns.of.drivers.forEach((driver, position) => {
    fillScores(columns, driver);
    columns.driverScores[position]!.set(columns.scores.subarray(0, count));
  });
}

/** Turns to one draw of the chunk. */
export function openDraw(columns: Columns, draw: number): void {
  const block = Math.floor(draw / blockDraws);
  columns.base = block * columns.width * blockDraws + (draw - block * blockDraws);
}

/** The draw at hand of a column, filling the column if this chunk has not asked for it yet. */
export function valueOf(columns: Columns, column: Column): number {
  // A column that is new has no entry yet, hence the negation.
  if (!(columns.goodFor[column]! >= columns.serial)) fillColumn(columns, column);
  return columns.values[columns.base + column * blockDraws]!;
}

function fillColumn(columns: Columns, column: Column): void {
  if (column >= columns.width) makeRoom(columns);
  const { filled, values, width, blocks } = columns;
  const quantity = columns.of.quantities[column]!;
  const isConstant = columns.sampling === "typical" || quantity.kind === "constant";
  if (columns.sampling === "typical") filled.fill(quantity.typical);
  else if (isConstant) filled.fill(Math.max(quantity.values[0]!, quantity.floor));
  else fillDraws(columns, quantity, filled);
  columns.goodFor[column] = isConstant ? everyChunk : columns.serial;
  for (let block = 0; block < blocks; block++) {
    const place = (block * width + column) * blockDraws;
    const first = block * blockDraws;
    for (let draw = 0; draw < blockDraws; draw++) values[place + draw] = filled[first + draw]!;
  }
}

/** Room for every quantity there is by now, and half as many again. */
function makeRoom(columns: Columns): void {
  const width = Math.ceil(columns.of.quantities.length * 1.5);
  const values = new Float64Array(columns.blocks * width * blockDraws);
  const before = columns.width * blockDraws;
  for (let block = 0; block < columns.blocks; block++) {
    values.set(columns.values.subarray(block * before, (block + 1) * before), block * width * blockDraws);
  }
  const goodFor = new Int32Array(width);
  goodFor.set(columns.goodFor);
  const block = Math.floor(columns.base / before);
  columns.base += block * (width * blockDraws - before);
  Object.assign(columns, { values, width, goodFor });
}

function fillDraws(columns: Columns, quantity: Quantity, out: Float64Array): void {
  const { scores, count } = columns;
  fillScores(columns, quantity);
  if (quantity.kind === "table") quantilesFromZ(quantity.values, scores, out, count);
  else stepsFromScores(quantity.thresholds, quantity.values, scores, out, count);
  if (quantity.floor > quantity.values[0]!) raiseTo(quantity.floor, out, count);
}

function fillScores(columns: Columns, quantity: Quantity): void {
  const { state, bits, scores, count } = columns;
  const { drivers, loadings, residual } = quantity.mixture;
  streamState(quantity.key, columns.seed, columns.chunk, state);
  if (columns.sampling === "stratified") fillStratified(state, bits, count, columns.strata);
  else fillIndependent(state, bits, count);
  normalsFromUint32(bits, scores, count);
  for (let term = 0; term < drivers.length; term++) {
    const kept = term === 0 ? residual : 1;
    mixIn(kept, loadings[term]!, columns.driverScores[drivers[term]!]!, scores, count);
  }
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

function raiseTo(floor: number, values: Float64Array, count: number): void {
  for (let draw = 0; draw < count; draw++) if (values[draw]! < floor) values[draw] = floor;
}

/** A step's value holds up to and including its threshold: the smallest value whose cumulative chance reaches Phi(score). */
function stepsFromScores(
  thresholds: Float64Array,
  values: Float64Array,
  scores: Float64Array,
  out: Float64Array,
  count: number,
): void {
  for (let draw = 0; draw < count; draw++) {
    const score = scores[draw]!;
    let step = 0;
    let end = thresholds.length;
    while (step < end) {
      const middle = (step + end) >> 1;
      if (score > thresholds[middle]!) step = middle + 1;
      else end = middle;
    }
    out[draw] = values[step]!;
  }
}
