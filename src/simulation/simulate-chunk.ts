import { openChunk, valueOf } from "./columns.ts";
import { weeksPerMonth } from "./compile-part.ts";
import { drawOnce, extrasCash, shareOfPrice } from "./draw-once.ts";
import type { DrawState } from "./draw-state.ts";
import type { OutcomeColumns } from "./outcome-columns.ts";
import type { Chunk } from "./replicates.ts";
import { type Schedule, scheduleDraw } from "./schedule.ts";

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
    recordLines(state, row, out);
    recordCounts(state, chunk.replicate, out);
  }
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

function recordLines(state: DrawState, row: number, out: OutcomeColumns): void {
  const { lineCash, supplierCash } = state;
  const { lines, supplierCash: suppliers } = out;
  for (let line = 0; line < lines.length; line++) lines[line]![row] = lineCash[line]!;
  for (let supplier = 0; supplier < suppliers.length; supplier++) {
    suppliers[supplier]![row] = supplierCash[supplier]!;
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
