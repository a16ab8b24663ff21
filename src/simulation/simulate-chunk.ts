import { type ChunkState, writeInto } from "./chunk-state.ts";
import { keptColumn } from "./columns.ts";
import { weeksPerMonth } from "./compile-part.ts";
import { drawChunk, sumOverheads } from "./draw-chunk.ts";
import { openDraw } from "./draw-state.ts";
import type { OutcomeColumns } from "./outcome-columns.ts";
import type { Chunk } from "./replicates.ts";
import { scheduleDraw } from "./schedule.ts";
import { countCritical } from "./schedule-critical.ts";
import type { Schedule } from "./schedule-state.ts";

/**
 * Draws one chunk and writes its outcomes in their places.
 *
 * @param schedule absent when nothing is to be scheduled: every draw then takes 0 weeks
 * @param out columns of the whole simulation; only the chunk's rows and its replicate's counts change
 */
export function simulateChunk(
  state: ChunkState,
  schedule: Schedule | undefined,
  chunk: Chunk,
  out: OutcomeColumns,
): void {
  writeInto(state, out, chunk);
  drawChunk(state, chunk);
  if (schedule !== undefined) scheduleChunk(state, schedule, chunk, out);
  recordTotals(state, chunk, out);
  recordDetail(state, chunk, out);
  recordCounts(state, chunk, out);
}

function scheduleChunk(state: ChunkState, schedule: Schedule, chunk: Chunk, out: OutcomeColumns): void {
  const firstCount = chunk.replicate * state.program.items.length;
  for (let draw = 0; draw < chunk.count; draw++) {
    openDraw(schedule.state, state, draw);
    schedule.steps = schedule.state.steps;
    out.weeks[chunk.start + draw] = scheduleDraw(schedule);
    if (out.lines.length > 0) countCritical(schedule, out.criticalDraws, firstCount);
  }
}

function recordTotals(state: ChunkState, { start, count }: Chunk, out: OutcomeColumns): void {
  const { program, columns } = state;
  const rows = (column: Float64Array) => column.subarray(start, start + count);
  const toGo = rows(out.toGo);
  toGo.fill(0);
  for (const line of state.lineCash) addTo(toGo, line);
  const ownHours = rows(out.ownHours);
  ownHours.fill(program.spentHours);
  addTo(ownHours, state.ownHours);
  rows(out.shopHours).set(state.shopHours.subarray(0, count));
  recordPurchase(state, rows(out.shareOfPrice), rows(out.purchase));
  const perMonth = keptColumn(columns, program.carryingPerMonth);
  const carrying = rows(out.carrying);
  const weeks = rows(out.weeks);
  const { value } = program;
  for (let draw = 0; draw < count; draw++) carrying[draw] = weeks[draw]! / weeksPerMonth;
  if (value !== undefined) {
    addTo(carrying, keptColumn(columns, value.months));
    const drawn = keptColumn(columns, value.finished);
    const fixed = keptColumn(columns, value.fixed);
    const finished = rows(out.finished);
    const proceeds = rows(out.proceeds);
    for (let draw = 0; draw < count; draw++) {
      const worth = drawn[draw]! + state.valueEffect[draw]!;
      finished[draw] = worth;
      proceeds[draw] = worth * (1 - value.commission) - fixed[draw]!;
    }
  }
  for (let draw = 0; draw < count; draw++) carrying[draw] = carrying[draw]! * perMonth[draw]!;
}

/** Shares of the price and what is paid at the purchase. */
function recordPurchase(state: ChunkState, shareOfPrice: Float64Array, purchase: Float64Array): void {
  const { extras, overheads, price } = state.program;
  shareOfPrice.fill(0);
  sumOverheads(state, extras, "price", shareOfPrice);
  for (let draw = 0; draw < purchase.length; draw++) purchase[draw] = price + price * shareOfPrice[draw]!;
  sumOverheads(state, extras, "cost", purchase);
  sumOverheads(state, overheads, "price", shareOfPrice);
}

function addTo(sum: Float64Array, column: Float64Array): void {
  for (let draw = 0; draw < sum.length; draw++) sum[draw] = sum[draw]! + column[draw]!;
}

function recordDetail(state: ChunkState, { start, count }: Chunk, out: OutcomeColumns): void {
  const { columns } = state;
  out.drivers.forEach((column, at) => column.set(columns.driverScores[at]!.subarray(0, count), start));
  const place = placeOf(out.operationDraws, start);
  if (out.operationDraws[place] !== start) return;
  out.operationCash.forEach((column, at) => {
    if (column.length > 0) column.set(state.itemCash[at]!.subarray(0, count), place);
  });
}

/** How many of ascending numbers are below a limit. */
function placeOf(ascending: Int32Array, limit: number): number {
  let low = 0;
  let high = ascending.length;
  while (low < high) {
    const middle = (low + high) >> 1;
    if (ascending[middle]! < limit) low = middle + 1;
    else high = middle;
  }
  return low;
}

function recordCounts(state: ChunkState, { replicate, count }: Chunk, out: OutcomeColumns): void {
  addCounts(out.routeDraws, state.routeDraws, replicate);
  addCounts(out.unresolvedDraws, state.unresolvedDraws, replicate);
  addCounts(out.departures, state.supplierDepartures, replicate);
  let complete = count;
  for (let draw = 0; draw < count; draw++) complete -= state.incomplete[draw]!;
  out.completeDraws[replicate] = out.completeDraws[replicate]! + complete;
}

function addCounts(counts: Int32Array | Float64Array, of: Int32Array, replicate: number): void {
  const first = replicate * of.length;
  for (let place = 0; place < of.length; place++) counts[first + place] = counts[first + place]! + of[place]!;
}
