import { valueOf } from "./columns.ts";
import { shopHoursPerWeek } from "./compile-owner-rank.ts";
import { type DrawState, countVisit, departureOf, joinDeparture } from "./draw-state.ts";
import { type OperationPlan, hands } from "./program.ts";
import { addItem, addStep, lastIsPlain, lengthenStep, stepKind } from "./steps.ts";

/**
 * Does one operation in one draw: pays it on its line, counts its hours, and adds its step to the chain.
 *
 * @param line position of the line that pays
 * @param joins series of the departures it may join: 0 planned, 1 late, 2 whole-machine
 * @returns what was paid to others, tax included, bench hours not
 */
export function perform(state: DrawState, plan: OperationPlan, line: number, joins: number): number {
  const { columns } = state;
  const hours = plan.hands === hands.none ? 0 : valueOf(columns, plan.hours) * plan.pieces;
  let paid = plan.hasCost ? valueOf(columns, plan.cost) * plan.pieces : 0;
  let bench = 0;
  if (plan.hands === hands.shop) {
    state.shopHours += hours;
    paid += hours * valueOf(columns, plan.rate);
  } else if (plan.hands === hands.owner) {
    state.ownHours += hours;
    bench = hours * state.benchRate;
  }
  const cash = paid * plan.taxFactor;
  state.lineCash[line] = state.lineCash[line]! + cash + bench;
  if (plan.lot >= 0) visit(state, plan, joins, paid, cash);
  else work(state, plan, hours);
  return cash;
}

function leadWeeks(state: DrawState, plan: OperationPlan): number {
  return plan.hasLead ? valueOf(state.columns, plan.lead) : 0;
}

function work(state: DrawState, plan: OperationPlan, hours: number): void {
  const { steps, program } = state;
  state.openLot = -1;
  const lead = leadWeeks(state, plan);
  const linked = program.precedence.linked[plan.item] === 1;
  if (plan.hands === hands.owner) {
    addStep(steps, stepKind.owner, hours / state.ownHoursPerWeek, lead, plan.item);
  } else {
    const weeks = plan.hasLead ? lead : hours / shopHoursPerWeek;
    if (linked) addStep(steps, stepKind.wait, weeks, 0, 0);
    else wait(state, weeks);
  }
  if (linked) addItem(steps, plan.item);
}

/** Lets time pass in the chain at hand. */
export function wait(state: DrawState, weeks: number): void {
  if (weeks === 0) return;
  if (lastIsPlain(state.steps, stepKind.wait)) lengthenStep(state.steps, weeks, 0);
  else addStep(state.steps, stepKind.wait, weeks, 0, 0);
}

/** Operations that follow each other at one supplier and lot are one visit. */
function visit(state: DrawState, plan: OperationPlan, joins: number, paid: number, cash: number): void {
  const { steps, program } = state;
  const lot = program.lots[plan.lot]!;
  const lead = leadWeeks(state, plan);
  if (state.openLot === plan.lot) {
    lengthenStep(steps, 0, lead);
  } else {
    const departure = departureOf(lot, joins, countVisit(state, plan.lot, joins));
    joinDeparture(state, departure.index);
    addStep(steps, stepKind.visit, 0, lead, departure.index);
    state.openLot = plan.lot;
  }
  const index = steps.target[steps.count - 1]!;
  state.departureSum[index] = state.departureSum[index]! + paid;
  state.supplierCash[lot.supplier] = state.supplierCash[lot.supplier]! + cash;
  if (program.precedence.linked[plan.item] === 1) addItem(steps, plan.item);
}
