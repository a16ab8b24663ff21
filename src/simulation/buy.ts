import type { ChunkState } from "./chunk-state.ts";
import { drawColumn } from "./columns.ts";
import { type DrawList, addAll, takeList } from "./draw-list.ts";
import { perform } from "./perform.ts";
import { type OperationPlan, type PartPlan, type PurchasePlan, type TryPlan, series } from "./program.ts";
import { stepKind } from "./steps.ts";
import { logWork, noItem } from "./work-log.ts";

/** Scratch of the purchase at hand, by draw: weeks hunted so far, and what may come back of the try at hand. */
const waited = new Float64Array(2048);
const recoverable = new Float64Array(2048);

/**
 * Buys a part in some draws: each try waits until something is found, pays, and judges what came.
 *
 * @param tried the draws in which the purchase is tried
 * @param failed receives those in which it ends without the part
 * @returns those in which the part is had
 */
export function buy(
  state: ChunkState,
  part: PartPlan,
  purchase: PurchasePlan,
  tried: DrawList,
  failed: DrawList,
): DrawList {
  const had = takeList(state.pool);
  for (let place = 0; place < tried.count; place++) waited[tried.draws[place]!] = 0;
  let trying = tried;
  for (let attempt = 1; attempt <= purchase.tries && trying.count > 0; attempt++) {
    const plan = (purchase.compiledTries[attempt - 1] ??= purchase.compileTry(attempt));
    if (plan.waitWeeks !== undefined) trying = hunt(state, purchase, plan.waitWeeks, attempt, trying, failed);
    for (let place = 0; place < trying.count; place++) state.openLot[trying.draws[place]!] = -1;
    if (trying.count > 0) trying = tryOnce(state, part, purchase, plan, trying, had);
  }
  addAll(failed, trying);
  return had;
}

/**
 * Waits until something is found or patience ends. The hunt of a route tried first begins at week 0, a later one when its
 * turn comes.
 *
 * @returns the draws in which something was found
 */
function hunt(
  state: ChunkState,
  { patienceWeeks }: PurchasePlan,
  column: number,
  attempt: number,
  list: DrawList,
  failed: DrawList,
): DrawList {
  const { scratch, pool, log } = state;
  const weeks = scratch.weeks;
  drawColumn(state.columns, column, list, weeks);
  const found = takeList(pool);
  const early = takeList(pool);
  const later = takeList(pool);
  const spent = scratch.byDraw;
  for (let place = 0; place < list.count; place++) {
    const draw = list.draws[place]!;
    const before = waited[draw]!;
    const patient = before + weeks[place]! <= patienceWeeks;
    const to = patient ? found : failed;
    to.draws[to.count++] = draw;
    const begins = attempt === 1 && state.series[draw] === series.planned ? early : later;
    begins.draws[begins.count++] = draw;
    spent[draw] = patient ? weeks[place]! : patienceWeeks - before;
    waited[draw] = before + weeks[place]!;
    state.series[draw] = series.late;
  }
  if (log === undefined) return found;
  if (early.count > 0) logWork(log, stepKind.until, noItem, early, false).column.set(spent);
  if (later.count > 0) logWork(log, stepKind.wait, noItem, later, false).column.set(spent);
  return found;
}

/** @returns the draws in which what came was useless; the others join `had` */
function tryOnce(
  state: ChunkState,
  part: PartPlan,
  purchase: PurchasePlan,
  plan: TryPlan,
  list: DrawList,
  had: DrawList,
): DrawList {
  const { operations, outcome } = plan;
  for (let place = 0; place < list.count; place++) recoverable[list.draws[place]!] = 0;
  performAll(state, part, operations, 0, purchase.judgedCount, list);
  drawColumn(state.columns, outcome, list, state.scratch.event);
  const sorted = purchase.outcomes.map(() => takeList(state.pool));
  for (let place = 0; place < list.count; place++) {
    const to = sorted[state.scratch.event[place]!]!;
    to.draws[to.count++] = list.draws[place]!;
  }
  const useless = takeList(state.pool);
  const good = takeList(state.pool);
  purchase.outcomes.forEach(({ result, recovers }, position) => {
    const came = sorted[position]!;
    if (result === "useless") giveBack(state, part, recovers, came);
    if (result === "rework") performAll(state, part, plan.rework[position]!, 0, Infinity, came);
    addAll(result === "useless" ? useless : good, came);
  });
  const kept = useless.count === 0 ? list : good;
  performAll(state, part, operations, purchase.judgedCount, Infinity, kept);
  addAll(had, kept);
  return useless;
}

function giveBack(state: ChunkState, part: PartPlan, share: number, { draws, count }: DrawList): void {
  const cash = state.lineCash[part.line]!;
  for (let place = 0; place < count; place++) {
    const draw = draws[place]!;
    cash[draw] = cash[draw]! - share * recoverable[draw]!;
  }
}

/** Does the operations [from, to) of a list and notes what of them is of trade `parts`, tax included. */
function performAll(
  state: ChunkState,
  part: PartPlan,
  operations: readonly OperationPlan[],
  from: number,
  to: number,
  list: DrawList,
): void {
  if (list.count === 0) return;
  for (let index = from; index < Math.min(to, operations.length); index++) {
    const operation = operations[index]!;
    if (operation.done) continue;
    perform(state, operation, part.line, list);
    if (!operation.isParts) continue;
    const { paid } = state.scratch;
    for (let place = 0; place < list.count; place++) {
      const draw = list.draws[place]!;
      recoverable[draw] = recoverable[draw]! + paid[place]!;
    }
  }
}
