import { DomainError } from "../numeric/domain-error.ts";
import type { DrawState } from "./draw-state.ts";
import { finishStep } from "./schedule-progress.ts";
import { type Schedule, none, push } from "./schedule-state.ts";

/** Weeks a departure is away in the draw at hand. */
export function leadWeeks(state: DrawState, departure: number): number {
  return state.departureLead[departure]!;
}

/** A departure leaves when the last of its visits is ready; one that left early takes each other visit as it comes. */
export function visit(schedule: Schedule, chain: number, step: number): void {
  const departure = schedule.steps.target[step]!;
  const week = schedule.week[chain]!;
  schedule.at[chain] = step;
  schedule.pending[departure] = schedule.pending[departure]! - 1;
  if (schedule.leftEarly[departure] === 1) {
    const back = week + leadWeeks(schedule.state, departure);
    returnVisit(schedule, chain, back, schedule.readyBy[chain]!);
    return;
  }
  if (week > schedule.leaves[departure]!) {
    schedule.leaves[departure] = week;
    schedule.leavesBy[departure] = schedule.readyBy[chain]!;
  }
  schedule.nextInList[chain] = schedule.waitingOn[departure]!;
  schedule.waitingOn[departure] = chain;
  if (schedule.pending[departure] === 0) {
    sendOff(schedule, departure, schedule.leaves[departure]!, schedule.leavesBy[departure]!);
  }
}

function sendOff(schedule: Schedule, departure: number, week: number, leavesBy: number): void {
  const back = week + leadWeeks(schedule.state, departure);
  let chain = schedule.waitingOn[departure]!;
  schedule.waitingOn[departure] = none;
  while (chain !== none) {
    const next = schedule.nextInList[chain]!;
    returnVisit(schedule, chain, back, leavesBy);
    chain = next;
  }
}

function returnVisit(schedule: Schedule, chain: number, back: number, startedBy: number): void {
  const step = schedule.at[chain]!;
  finishStep(schedule, chain, step, back + schedule.steps.lead[step]!, startedBy);
  push(schedule, chain);
}

/** Where nothing can move, the first departure with a visit ready leaves with those it has. */
export function sendEarly(schedule: Schedule): void {
  const { state } = schedule;
  let first = none;
  for (let i = 0; i < state.departureCount; i++) {
    const departure = state.departed[i]!;
    if (schedule.waitingOn[departure] === none) continue;
    if (first === none || orderOf(state, departure) < orderOf(state, first)) first = departure;
  }
  /* v8 ignore next -- @preserve every document in which this could be is refused */
  if (first === none) throw new DomainError("schedule-stuck", "no operation and no departure can move");
  schedule.leftEarly[first] = 1;
  sendOff(schedule, first, schedule.latest, schedule.latestBy);
}

function orderOf(state: DrawState, departure: number): number {
  return state.program.departures[departure]!.order;
}
