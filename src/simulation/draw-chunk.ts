import type { ChunkState } from "./chunk-state.ts";
import { drawColumn, keptColumn, openChunk } from "./columns.ts";
import { clearDepartures, listDeparting } from "./departures.ts";
import { takeList } from "./draw-list.ts";
import { perform } from "./perform.ts";
import { type FindingPlan, type OverheadPlan, type WholePlan, series } from "./program.ts";
import type { Chunk } from "./replicates.ts";
import { clearLog, logChain } from "./work-log.ts";
import { walkPart } from "./walk-part.ts";

/**
 * Draws everything of a chunk but the schedule: conditions, findings, every route walked, every departure charged. The
 * state then holds the cash of each line, the hours, the value effects, and the chains of steps to be scheduled: before,
 * parts and findings without part, after.
 */
export function drawChunk(state: ChunkState, { key, count }: Pick<Chunk, "key" | "count">): void {
  const { program, log } = state;
  openChunk(state.columns, key, count);
  clear(state);
  program.findings.forEach((finding, position) => drawPresence(state, finding, position));
  if (log !== undefined) clearLog(log);
  performWhole(state, program.before);
  program.parts.forEach((part, position) => walkPart(state, part, position));
  program.findings.forEach((finding, position) => {
    if (!finding.ofPart) performFinding(state, finding, position);
  });
  performWhole(state, program.after);
  settleDepartures(state);
  payOverheads(state);
}

function clear(state: ChunkState): void {
  state.ownHours.fill(0);
  state.shopHours.fill(0);
  state.valueEffect.fill(0);
  state.supplierDepartures.fill(0);
  state.routeDraws.fill(0);
  state.unresolvedDraws.fill(0);
  state.incomplete.fill(0);
  for (const columns of [state.lineCash, state.supplierCash, state.itemCash, state.failed, state.paid]) {
    for (const column of columns) column.fill(0);
  }
  clearDepartures(state.departures);
}

function drawPresence(state: ChunkState, finding: FindingPlan, position: number): void {
  const present = state.present[position]!;
  const drawn = keptColumn(state.columns, finding.event);
  for (let draw = 0; draw < state.whole.count; draw++) present[draw] = drawn[draw]!;
}

/** No visit goes on from one chain to the next. */
function startChain(state: ChunkState, joins: number): void {
  state.openLot.fill(-1);
  state.series.fill(joins);
  state.pool.taken = 0;
  if (state.log !== undefined) logChain(state.log);
}

function performWhole(state: ChunkState, plans: readonly WholePlan[]): void {
  startChain(state, series.whole);
  for (const { work, line } of plans) if (!work.done) perform(state, work, line, state.whole);
}

function performFinding(state: ChunkState, finding: FindingPlan, position: number): void {
  startChain(state, series.planned);
  const present = state.present[position]!;
  const list = takeList(state.pool);
  for (let draw = 0; draw < state.whole.count; draw++)
    if (present[draw] === 1) list.draws[list.count++] = draw;
  if (list.count > 0) perform(state, finding.work, finding.line, list);
}

/** A departure holding anything costs at least the minimum, and its charge and freight on top. */
function settleDepartures(state: ChunkState): void {
  const { program, columns, departures, scratch } = state;
  const { paid: charge, hours: freight } = scratch;
  state.pool.taken = 0;
  const list = takeList(state.pool);
  for (const index of departures.used) {
    const plan = program.departures[index]!;
    const supplier = program.suppliers[plan.supplier]!;
    listDeparting(departures, index, state.whole, list);
    drawColumn(columns, plan.charge, list, charge);
    drawColumn(columns, plan.freight, list, freight);
    const sum = departures.sum[index]!;
    const line = state.lineCash[supplier.line]!;
    const all = state.supplierCash[plan.supplier]!;
    for (let place = 0; place < list.count; place++) {
      const draw = list.draws[place]!;
      const topUp = Math.max(0, supplier.minimumCharge - sum[draw]!);
      const cash = (topUp + charge[place]! + freight[place]!) * supplier.taxFactor;
      line[draw] = line[draw]! + cash;
      all[draw] = all[draw]! + cash;
    }
    state.supplierDepartures[plan.supplier] = state.supplierDepartures[plan.supplier]! + list.count;
    if (state.log !== undefined) drawLead(state, index, list);
  }
}

/** Weeks the departure is away, by draw. */
function drawLead(state: ChunkState, index: number, list: ReturnType<typeof takeList>): void {
  const { weeks } = state.scratch;
  const lead = state.departures.lead[index]!;
  drawColumn(state.columns, state.program.departures[index]!.lead, list, weeks);
  for (let place = 0; place < list.count; place++) lead[list.draws[place]!] = weeks[place]!;
}

/** Shares of what is listed are of all lines but the overheads themselves. */
function payOverheads(state: ChunkState): void {
  const { program, lineCash, whole } = state;
  if (program.overheads.length === 0) return;
  const listed = state.scratch.hours;
  listed.fill(0);
  for (const line of lineCash)
    for (let draw = 0; draw < whole.count; draw++) listed[draw] = listed[draw]! + line[draw]!;
  for (const overhead of program.overheads) payOverhead(state, overhead, listed);
}

function payOverhead(
  state: ChunkState,
  { column, of, taxFactor, line }: OverheadPlan,
  listed: Float64Array,
): void {
  const cash = state.lineCash[line]!;
  const share = keptColumn(state.columns, column);
  const { count } = state.whole;
  if (of === "listed") {
    for (let draw = 0; draw < count; draw++) cash[draw] = share[draw]! * listed[draw]!;
    return;
  }
  const factor = of === "price" ? state.program.price : taxFactor;
  for (let draw = 0; draw < count; draw++) cash[draw] = share[draw]! * factor;
}

/**
 * Adds up a draw's overheads of one kind as drawn, before any tax or factor.
 *
 * @param sum receives by draw
 */
export function sumOverheads(
  state: ChunkState,
  overheads: readonly OverheadPlan[],
  of: OverheadPlan["of"],
  sum: Float64Array,
): void {
  for (const overhead of overheads) {
    if (overhead.of !== of) continue;
    const drawn = keptColumn(state.columns, overhead.column);
    for (let draw = 0; draw < state.whole.count; draw++) sum[draw] = sum[draw]! + drawn[draw]!;
  }
}
