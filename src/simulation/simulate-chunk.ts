import { openChunk, valueOf } from "./columns.ts";
import { weeksPerMonth } from "./compile-part.ts";
import { drawOnce, extrasCash, shareOfPrice } from "./draw-once.ts";
import type { DrawState } from "./draw-state.ts";
import type { OutcomeColumns } from "./outcome-columns.ts";
import type { Chunk } from "./replicates.ts";
import { scheduleDraw } from "./schedule.ts";
import type { Schedule } from "./schedule-state.ts";

/**
 * Draws one chunk and writes its outcomes in their places.
 *
 * @param out columns of the whole simulation; only the chunk's rows and its replicate's counts change
 */
export function simulateChunk(state: DrawState, schedule: Schedule, chunk: Chunk, out: OutcomeColumns): void {
  openChunk(state.columns, chunk.key, chunk.count);
  for (let draw = 0; draw < chunk.count; draw++) {
    drawOnce(state, draw);
    const weeks = scheduleDraw(schedule);
    const row = chunk.start + draw;
    recordTotals(state, weeks, row, out);
    keepRow(state, draw);
    recordCounts(state, chunk.replicate, out);
  }
  turnRows(state.lineRows, out.lines, chunk);
  turnRows(state.supplierRows, out.supplierCash, chunk);
}

function recordTotals(state: DrawState, weeks: number, row: number, out: OutcomeColumns): void {
  const { program, columns, lineCash } = state;
  let toGo = 0;
  for (let line = 0; line < lineCash.length; line++) toGo += lineCash[line]!;
  out.toGo[row] = toGo;
  out.ownHours[row] = program.spentHours + state.ownHours;
  out.shopHours[row] = state.shopHours;
  out.weeks[row] = weeks;
  out.shareOfPrice[row] = shareOfPrice(state);
  out.purchase[row] = program.price + extrasCash(state);
  let months = weeks / weeksPerMonth;
  if (program.value !== undefined) {
    const { finished, commission, fixed, months: selling } = program.value;
    months += valueOf(columns, selling);
    const value = valueOf(columns, finished) + state.valueEffect;
    out.finished[row] = value;
    out.proceeds[row] = value * (1 - commission) - valueOf(columns, fixed);
  }
  out.carrying[row] = valueOf(columns, program.carryingPerMonth) * months;
}

/** Draws are kept as rows while the chunk is drawn, because writing to a hundred columns in turn is slow. */
function keepRow(state: DrawState, draw: number): void {
  state.lineRows.set(state.lineCash, draw * state.lineCash.length);
  state.supplierRows.set(state.supplierCash, draw * state.supplierCash.length);
}

/** Rows of the chunk's draws become stretches of the columns. */
function turnRows(rows: Float64Array, columns: readonly Float64Array[], chunk: Chunk): void {
  for (let position = 0; position < columns.length; position++) {
    const column = columns[position]!;
    for (let draw = 0; draw < chunk.count; draw++) {
      column[chunk.start + draw] = rows[draw * columns.length + position]!;
    }
  }
}

function recordCounts(state: DrawState, replicate: number, out: OutcomeColumns): void {
  const { program, fittedRoute, supplierDepartures } = state;
  let complete = true;
  for (let part = 0; part < fittedRoute.length; part++) {
    const route = fittedRoute[part]!;
    if (route < 0) complete = false;
    if (route < 0) count(out.unresolvedDraws, replicate * fittedRoute.length + part, 1);
    else count(out.routeDraws, replicate * program.routeCount + program.parts[part]!.firstRoute + route, 1);
  }
  if (complete) count(out.completeDraws, replicate, 1);
  for (let supplier = 0; supplier < supplierDepartures.length; supplier++) {
    count(out.departures, replicate * supplierDepartures.length + supplier, supplierDepartures[supplier]!);
  }
}

function count(counts: Int32Array | Float64Array, place: number, by: number): void {
  counts[place] = counts[place]! + by;
}
