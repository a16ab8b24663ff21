import type { ChunkState } from "./chunk-state.ts";
import { drawColumn, keptColumn } from "./columns.ts";
import { shopHoursPerWeek } from "./compile-owner-rank.ts";
import { joinDepartures } from "./departures.ts";
import { type DrawList, partList, takeList } from "./draw-list.ts";
import { type OperationPlan, hands } from "./program.ts";
import { stepKind } from "./steps.ts";
import { goesOn, logWork } from "./work-log.ts";

/**
 * Does one operation in some draws: pays it on its line, counts its hours, and adds its step to the chain.
 *
 * @param line position of the line that pays
 * @param list the draws in which it is done; `scratch.paid` then holds what was paid to others in each, tax included,
 *   bench hours not
 */
export function perform(state: ChunkState, plan: OperationPlan, line: number, list: DrawList): void {
  const { columns, scratch } = state;
  const { hours, lead } = scratch;
  if (plan.hands !== hands.none) {
    drawColumn(columns, plan.hours, list, hours);
    if (plan.pieces !== 1) scale(hours, plan.pieces, list.count);
  }
  if (plan.hasLead) drawColumn(columns, plan.lead, list, lead);
  payOthers(state, plan, list);
  if (plan.hands === hands.owner) work(state, line, list);
  if (plan.lot >= 0) visit(state, plan, list);
  else pass(state, plan, list);
  if (state.itemCash[plan.item]!.length > 0) settle(state, plan, line, list);
}

function scale(values: Float64Array, factor: number, count: number): void {
  for (let place = 0; place < count; place++) values[place] = values[place]! * factor;
}

/** What others ask before tax: the cost, and the shop's hours at its rate. */
function payOthers(state: ChunkState, plan: OperationPlan, list: DrawList): void {
  const { columns, scratch, shopHours } = state;
  const { paid, hours } = scratch;
  const { draws, count } = list;
  if (plan.hasCost) {
    drawColumn(columns, plan.cost, list, paid);
    if (plan.pieces !== 1) scale(paid, plan.pieces, count);
  } else {
    paid.fill(0, 0, count);
  }
  if (plan.hands !== hands.shop) return;
  const rate = keptColumn(columns, plan.rate);
  for (let place = 0; place < count; place++) {
    const draw = draws[place]!;
    shopHours[draw] = shopHours[draw]! + hours[place]!;
    paid[place] = paid[place]! + hours[place]! * rate[draw]!;
  }
}

/** The owner's hours, and what they cost where the owner is a shop's bench. */
function work(state: ChunkState, line: number, { draws, count }: DrawList): void {
  const { ownHours, scratch, program, columns } = state;
  const { hours } = scratch;
  for (let place = 0; place < count; place++) {
    const draw = draws[place]!;
    ownHours[draw] = ownHours[draw]! + hours[place]!;
  }
  if (!program.hasBench) return;
  const rate = keptColumn(columns, program.benchRate);
  const cash = state.lineCash[line]!;
  for (let place = 0; place < count; place++) {
    const draw = draws[place]!;
    cash[draw] = cash[draw]! + hours[place]! * rate[draw]!;
  }
}

/** Tax joins what is paid, and the line pays it. */
function settle(state: ChunkState, plan: OperationPlan, line: number, { draws, count }: DrawList): void {
  const { paid } = state.scratch;
  const { taxFactor } = plan;
  const cash = state.lineCash[line]!;
  const item = state.itemCash[plan.item]!;
  for (let place = 0; place < count; place++) {
    const draw = draws[place]!;
    const amount = paid[place]! * taxFactor;
    paid[place] = amount;
    cash[draw] = cash[draw]! + amount;
    item[draw] = item[draw]! + amount;
  }
}

/** The time of an operation that is at no supplier. */
function pass(state: ChunkState, plan: OperationPlan, list: DrawList): void {
  const { log, scratch, program, columns, openLot } = state;
  const { draws, count } = list;
  for (let place = 0; place < count; place++) openLot[draws[place]!] = -1;
  if (log === undefined) return;
  if (plan.hands === hands.owner) {
    const entry = logWork(log, stepKind.owner, plan.item, list, plan.hasLead);
    const pace = keptColumn(columns, program.ownHoursPerWeek);
    const weeks = entry.column;
    for (let place = 0; place < count; place++) {
      const draw = draws[place]!;
      weeks[draw] = scratch.hours[place]! / pace[draw]!;
    }
    if (entry.lead !== undefined) spread(scratch.lead, list, entry.lead);
  } else if (plan.hasLead) {
    spread(scratch.lead, list, logWork(log, stepKind.wait, plan.item, list, false).column);
  } else if (plan.hands === hands.shop) {
    const { column: weeks } = logWork(log, stepKind.wait, plan.item, list, false);
    for (let place = 0; place < count; place++)
      weeks[draws[place]!] = scratch.hours[place]! / shopHoursPerWeek;
  } else if (log.linked[plan.item] === 1) {
    logWork(log, stepKind.wait, plan.item, list, false).column.fill(0);
  }
}

/** From the order of a list to that of the draws. */
function spread(values: Float64Array, { draws, count }: DrawList, byDraw: Float64Array): void {
  for (let place = 0; place < count; place++) byDraw[draws[place]!] = values[place]!;
}

/** Operations that follow each other at one supplier and lot are one visit; what they sum to is kept before tax. */
function visit(state: ChunkState, plan: OperationPlan, list: DrawList): void {
  const { scratch, program, departures, openDeparture, log } = state;
  const { lot, taxFactor } = plan;
  const { paid } = scratch;
  const { draws, count } = list;
  const begun = openVisits(state, lot, list);
  const supplier = state.supplierCash[program.lots[lot]!.supplier]!;
  let departure = -1;
  let sum = supplier;
  for (let place = 0; place < count; place++) {
    const draw = draws[place]!;
    if (openDeparture[draw] !== departure) {
      departure = openDeparture[draw]!;
      sum = departures.sum[departure]!;
    }
    sum[draw] = sum[draw]! + paid[place]!;
    supplier[draw] = supplier[draw]! + paid[place]! * taxFactor;
  }
  if (log === undefined) return;
  const entry = logWork(log, stepKind.visit, plan.item, list, plan.hasLead);
  if (entry.lead !== undefined) spread(scratch.lead, list, entry.lead);
  if (begun.count < count) entry.column.fill(goesOn);
  for (let place = 0; place < begun.count; place++) {
    const draw = begun.draws[place]!;
    entry.column[draw] = openDeparture[draw]!;
  }
}

/** Begins a visit where none to the lot goes on. @returns the draws in which it began */
function openVisits(state: ChunkState, lot: number, list: DrawList): DrawList {
  const { openLot, openDeparture, series, departures, program, scratch } = state;
  const { draws, count } = list;
  const { flags } = scratch;
  let beginning = 0;
  for (let place = 0; place < count; place++) {
    const draw = draws[place]!;
    const flag = openLot[draw] === lot ? 0 : 1;
    flags[draw] = flag;
    beginning += flag;
    openLot[draw] = lot;
  }
  let begun = list;
  if (beginning < count) {
    begun = takeList(state.pool);
    partList(list, flags, 1, begun, takeList(state.pool));
  }
  joinDepartures(departures, program, lot, series, begun, openDeparture);
  return begun;
}
