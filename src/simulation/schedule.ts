import { addRank, takeSmallest } from "./rank-set.ts";
import { leadWeeks, sendEarly, visit } from "./schedule-departures.ts";
import { finishStep, isHeldBack } from "./schedule-progress.ts";
import { type Schedule, began, openParts, push } from "./schedule-state.ts";
import { stepKind } from "./steps.ts";
import { popTime, pushTime } from "./time-heap.ts";

/** Times closer than this many weeks are one instant. */
const instantWeeks = 1e-9;

/**
 * Schedules the chains of the draw just made.
 *
 * @returns weeks from the first hour of strip-down to the last of the work that follows all parts
 */
export function scheduleDraw(schedule: Schedule): number {
  const { steps } = schedule;
  const last = steps.chains - 1;
  const opened = runAlone(schedule, 0, 0);
  openParts(schedule, opened, last);
  while (schedule.unfinished > 0) {
    runStacked(schedule);
    if (schedule.unfinished > 0) moveOn(schedule);
  }
  return runAlone(schedule, last, schedule.latest);
}

/** Whole-machine work runs in order with nothing beside it, so each step simply follows the one before. */
function runAlone(schedule: Schedule, chain: number, from: number): number {
  const { steps, state } = schedule;
  let week = from;
  for (let step = steps.chainStart[chain]!; step < steps.chainStart[chain + 1]!; step++) {
    week += steps.weeks[step]! + steps.lead[step]!;
    if (steps.kind[step] === stepKind.visit) week += leadWeeks(state, steps.target[step]!);
  }
  return week;
}

function runStacked(schedule: Schedule): void {
  while (schedule.stacked > 0) {
    schedule.stacked -= 1;
    runAhead(schedule, schedule.stack[schedule.stacked]!);
  }
}

/** Runs a chain until it is finished or must stop. */
function runAhead(schedule: Schedule, chain: number): void {
  const { steps } = schedule;
  const end = steps.chainStart[chain + 1]!;
  let step = schedule.at[chain]!;
  while (step < end) {
    const holdsItems = steps.itemStart[step + 1]! > steps.itemStart[step]!;
    if (holdsItems && isHeldBack(schedule, chain, step)) return;
    const kind = steps.kind[step]!;
    if (kind === stepKind.owner) return waitForOwner(schedule, chain, step);
    if (kind === stepKind.visit) return visit(schedule, chain, step);
    const week = schedule.week[chain]!;
    const weeks = steps.weeks[step]!;
    const readyBy = schedule.readyBy[chain]!;
    if (kind !== stepKind.until) finishStep(schedule, chain, step, week + weeks, readyBy);
    else if (weeks > week) finishStep(schedule, chain, step, weeks, began.byItself);
    else finishStep(schedule, chain, step, week, readyBy);
    step += 1;
  }
  schedule.unfinished -= 1;
}

function waitForOwner(schedule: Schedule, chain: number, step: number): void {
  const rank = schedule.state.program.ownerRank[schedule.steps.target[step]!]!;
  const week = schedule.week[chain]!;
  schedule.at[chain] = step;
  schedule.chainOfRank[rank] = chain;
  if (week <= schedule.now + instantWeeks) addRank(schedule.ready, rank);
  else pushTime(schedule.future, week, rank);
}

/** Lets the owner do the next thing; where nothing can move, sends the first departure with a visit ready. */
function moveOn(schedule: Schedule): void {
  const { ready, future } = schedule;
  if (ready.size === 0 && future.size === 0) return sendEarly(schedule);
  if (ready.size === 0) schedule.now = Math.max(schedule.now, future.weeks[0]!);
  while (future.size > 0 && future.weeks[0]! <= schedule.now + instantWeeks) addRank(ready, popTime(future));
  const chain = schedule.chainOfRank[takeSmallest(ready)]!;
  const step = schedule.at[chain]!;
  // Ready while the owner was busy, it began when the work before was done; else when it was ready.
  const startedBy = schedule.now > schedule.week[chain]! ? schedule.ownerBy : schedule.readyBy[chain]!;
  schedule.now += schedule.steps.weeks[step]!;
  schedule.ownerBy = step;
  finishStep(schedule, chain, step, schedule.now + schedule.steps.lead[step]!, startedBy);
  push(schedule, chain);
}
