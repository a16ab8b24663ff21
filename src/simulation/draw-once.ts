import { type Column, openDraw, valueOf } from "./columns.ts";
import { type DrawState } from "./draw-state.ts";
import { perform } from "./perform.ts";
import { type OverheadPlan, type WholePlan, series } from "./program.ts";
import { beginChain, clearSteps } from "./steps.ts";
import { walkPart } from "./walk-part.ts";

/**
 * Draws everything but the schedule: conditions, findings, every route walked, every departure charged. The state then
 * holds the cash of each line, the hours, the value effects, and the chains of steps to be scheduled: before, parts and
 * findings without part, after.
 *
 * @param draw position of the draw in the chunk
 */
export function drawOnce(state: DrawState, draw: number): void {
  const { program, columns } = state;
  reset(state, draw);
  const { findings } = program;
  for (let position = 0; position < findings.length; position++) {
    state.present[position] = valueOf(columns, findings[position]!.event);
  }
  startChain(state);
  performWhole(state, program.before);
  for (let position = 0; position < program.parts.length; position++) {
    startChain(state);
    walkPart(state, program.parts[position]!, position);
  }
  for (let position = 0; position < program.findings.length; position++) {
    const finding = program.findings[position]!;
    if (finding.ofPart || state.present[position] === 0) continue;
    startChain(state);
    perform(state, finding.work, finding.line, series.planned);
  }
  startChain(state);
  performWhole(state, program.after);
  settleDepartures(state);
  payOverheads(state);
}

function reset(state: DrawState, draw: number): void {
  const { program, columns } = state;
  openDraw(columns, draw);
  state.ownHoursPerWeek = valueOf(columns, program.ownHoursPerWeek);
  state.benchRate = valueOf(columns, program.benchRate);
  state.ownHours = 0;
  state.shopHours = 0;
  state.valueEffect = 0;
  state.lineCash.fill(0);
  state.supplierCash.fill(0);
  state.supplierDepartures.fill(0);
  state.paid.fill(0);
  state.wholeVisits.fill(0);
  for (let i = 0; i < state.departureCount; i++) state.departureVisits[state.departed[i]!] = 0;
  state.departureCount = 0;
  clearSteps(state.steps);
}

/** No visit goes on from one chain to the next. */
function startChain(state: DrawState): void {
  state.openLot = -1;
  beginChain(state.steps);
}

function performWhole(state: DrawState, plans: readonly WholePlan[]): void {
  for (const { work, line } of plans) if (!work.done) perform(state, work, line, series.whole);
}

/** A departure holding anything costs at least the minimum, and its charge and freight on top. */
function settleDepartures(state: DrawState): void {
  const { program, columns } = state;
  for (let i = 0; i < state.departureCount; i++) {
    const index = state.departed[i]!;
    const plan = program.departures[index]!;
    const supplier = program.suppliers[plan.supplier]!;
    const topUp = Math.max(0, supplier.minimumCharge - state.departureSum[index]!);
    const extra = topUp + valueOf(columns, plan.charge) + valueOf(columns, plan.freight);
    const cash = extra * supplier.taxFactor;
    state.lineCash[supplier.line] = state.lineCash[supplier.line]! + cash;
    state.supplierCash[plan.supplier] = state.supplierCash[plan.supplier]! + cash;
    state.supplierDepartures[plan.supplier] = state.supplierDepartures[plan.supplier]! + 1;
  }
}

/** Shares of what is listed are of all lines but the overheads themselves. */
function payOverheads(state: DrawState): void {
  const { program, lineCash } = state;
  if (program.overheads.length === 0) return;
  let listed = 0;
  for (let line = 0; line < lineCash.length; line++) listed += lineCash[line]!;
  for (const overhead of program.overheads) lineCash[overhead.line] = overheadCash(state, overhead, listed);
}

function overheadCash(state: DrawState, { column, of, taxFactor }: OverheadPlan, listed: number): number {
  const share = valueOf(state.columns, column);
  if (of === "cost") return share * taxFactor;
  return share * (of === "price" ? state.program.price : listed);
}

/** Sum of a draw's shares of the price: of the extras and of the overheads. */
export function shareOfPrice(state: DrawState): number {
  const { program } = state;
  return sumOf(state, program.extras, "price") + sumOf(state, program.overheads, "price");
}

/** What comes on top of the price at the purchase. */
export function extrasCash(state: DrawState): number {
  const { program } = state;
  return sumOf(state, program.extras, "cost") + program.price * sumOf(state, program.extras, "price");
}

function sumOf(state: DrawState, overheads: readonly OverheadPlan[], of: OverheadPlan["of"]): number {
  let sum = 0;
  for (const overhead of overheads) if (overhead.of === of) sum += at(state, overhead.column);
  return sum;
}

function at(state: DrawState, column: Column): number {
  return valueOf(state.columns, column);
}
