import { valueOf } from "./columns.ts";
import { type DrawState, forgetVisits } from "./draw-state.ts";
import { perform, wait } from "./perform.ts";
import {
  type OperationPlan,
  type PartPlan,
  type PurchasePlan,
  type RoutePlan,
  type TryPlan,
  series,
} from "./program.ts";
import { addStep, stepKind } from "./steps.ts";

/**
 * Walks one part's routes in one draw: pays what is tried, until a route ends up on the machine or none is left.
 *
 * @param position of the part; `state.fittedRoute` there tells the outcome
 */
export function walkPart(state: DrawState, part: PartPlan, position: number): void {
  forgetVisits(state);
  const route = part.fitted >= 0 ? part.fitted : firstThatWorks(state, part);
  state.fittedRoute[position] = route;
  const effect = route >= 0 ? part.routes[route]!.valueEffect : part.unresolvedEffect;
  state.valueEffect += valueOf(state.columns, effect);
}

function firstThatWorks(state: DrawState, part: PartPlan): number {
  const band = valueOf(state.columns, part.band);
  let first = true;
  for (let position = 0; position < part.routes.length; position++) {
    const route = part.routes[position]!;
    if (route.failed || (route.worksFor & (1 << band)) === 0 || isRuledOut(state, route)) continue;
    payFindings(state, route);
    const works =
      route.purchase === undefined
        ? work(state, part, route, first)
        : buy(state, part, route.purchase, first);
    state.openLot = -1;
    if (works) return position;
    first = false;
  }
  return -1;
}

function isRuledOut(state: DrawState, route: RoutePlan): boolean {
  const { ruledOutBy } = route;
  for (let index = 0; index < ruledOutBy.length; index++) {
    if (state.present[ruledOutBy[index]!] === 1) return true;
  }
  return false;
}

/** A finding of a part is paid and done once, before the first route tried on which it must be paid for. */
function payFindings(state: DrawState, route: RoutePlan): void {
  const { findings } = route;
  for (let index = 0; index < findings.length; index++) {
    const position = findings[index]!;
    if (state.present[position] === 0 || state.paid[position] === 1) continue;
    const finding = state.program.findings[position]!;
    state.paid[position] = 1;
    perform(state, finding.work, finding.line, series.planned);
  }
}

function work(state: DrawState, part: PartPlan, route: RoutePlan, first: boolean): boolean {
  const { operations, failsAfter } = route;
  for (let index = 0; index < operations.length; index++) {
    const operation = operations[index]!;
    if (!operation.done) perform(state, operation, part.line, first ? series.planned : series.late);
    if (index === failsAfter && valueOf(state.columns, route.failure) === 1) return false;
  }
  return true;
}

function buy(state: DrawState, part: PartPlan, purchase: PurchasePlan, first: boolean): boolean {
  let waited = 0;
  let joins: number = first ? series.planned : series.late;
  for (let attempt = 1; attempt <= purchase.tries; attempt++) {
    const plan = (purchase.compiledTries[attempt - 1] ??= purchase.compileTry(attempt));
    if (plan.waitWeeks !== undefined) {
      const weeks = valueOf(state.columns, plan.waitWeeks);
      const patient = waited + weeks <= purchase.patienceWeeks;
      hunt(state, patient ? weeks : purchase.patienceWeeks - waited, first && attempt === 1);
      if (!patient) return false;
      waited += weeks;
      joins = series.late;
    }
    state.openLot = -1;
    if (tryOne(state, part, purchase, plan, joins)) return true;
  }
  return false;
}

/** The hunt of a route tried first begins at week 0; a later one when its turn comes. */
function hunt(state: DrawState, weeks: number, fromTheStart: boolean): void {
  if (fromTheStart) addStep(state.steps, stepKind.until, weeks, 0, 0);
  else wait(state, weeks);
}

function tryOne(
  state: DrawState,
  part: PartPlan,
  purchase: PurchasePlan,
  plan: TryPlan,
  joins: number,
): boolean {
  const { operations } = plan;
  const recoverable = performAll(state, part, operations, 0, purchase.judgedCount, joins);
  const position = valueOf(state.columns, plan.outcome);
  const outcome = purchase.outcomes[position];
  if (outcome?.result === "useless") {
    state.lineCash[part.line] = state.lineCash[part.line]! - outcome.recovers * recoverable;
    return false;
  }
  if (outcome?.result === "rework") {
    const rework = plan.rework[position]!;
    performAll(state, part, rework, 0, rework.length, joins);
  }
  performAll(state, part, operations, purchase.judgedCount, operations.length, joins);
  return true;
}

/** @returns what was paid in operations of trade `parts`, tax included */
function performAll(
  state: DrawState,
  part: PartPlan,
  operations: readonly OperationPlan[],
  from: number,
  to: number,
  joins: number,
): number {
  let paidForParts = 0;
  for (let index = from; index < to; index++) {
    const operation = operations[index]!;
    if (operation.done) continue;
    const cash = perform(state, operation, part.line, joins);
    if (operation.isParts) paidForParts += cash;
  }
  return paidForParts;
}
