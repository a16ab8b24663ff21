import { DomainError } from "../numeric/domain-error.ts";
import { valueOf } from "./columns.ts";
import type { DrawState } from "./draw-state.ts";
import { type RankSet, addRank, makeRankSet, takeSmallest } from "./rank-set.ts";
import { type Steps, stepKind } from "./steps.ts";
import { type TimeHeap, makeTimeHeap, popTime, pushTime } from "./time-heap.ts";

/** Times closer than this many weeks are one instant. */
const instantWeeks = 1e-9;

/** No chain follows in a list of chains. */
const none = -1;

/**
 * The state of one draw's schedule. Chains run ahead as far as they can without the owner or a departure that is not
 * complete; a chain that stops is ready for the owner, on a departure, or behind an item that is not finished.
 */
export interface Schedule {
  readonly state: DrawState;
  readonly steps: Steps;
  /** By chain: the week it has come to and the step it is at. */
  readonly week: Float64Array;
  readonly at: Int32Array;
  /** Chains still to be run ahead, a stack. */
  readonly stack: Int32Array;
  stacked: number;
  unfinished: number;
  /** Latest week at which anything happened. */
  latest: number;
  /** The week at which the owner is free. */
  now: number;
  readonly ready: RankSet;
  readonly future: TimeHeap;
  /** By owner's rank: the chain that waits for the owner there. */
  readonly chainOfRank: Int32Array;
  /** By departure: visits not yet ready, first chain waiting on it, week of its last visit, whether it has left early. */
  pending: Int32Array;
  waitingOn: Int32Array;
  leaves: Float64Array;
  leftEarly: Uint8Array;
  /** By chain: the next chain in the list it waits in. */
  readonly nextInList: Int32Array;
  /** By item, where linked: executions to come in this draw, week of the last, first chain behind it. */
  readonly toCome: Int32Array;
  readonly finished: Float64Array;
  readonly behind: Int32Array;
}

/**
 * Makes the schedule of a simulation's draws.
 *
 * @param state whose steps are scheduled, draw after draw
 */
export function makeSchedule(state: DrawState): Schedule {
  const chains = state.steps.chainStart.length - 1;
  const items = state.program.ownerRank.length;
  return {
    state,
    steps: state.steps,
    week: new Float64Array(chains),
    at: new Int32Array(chains),
    stack: new Int32Array(chains),
    stacked: 0,
    unfinished: 0,
    latest: 0,
    now: 0,
    ready: makeRankSet(items),
    future: makeTimeHeap(chains),
    chainOfRank: new Int32Array(items),
    pending: new Int32Array(0),
    waitingOn: new Int32Array(0),
    leaves: new Float64Array(0),
    leftEarly: new Uint8Array(0),
    nextInList: new Int32Array(chains),
    toCome: new Int32Array(items),
    finished: new Float64Array(items),
    behind: new Int32Array(items),
  };
}

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

function leadWeeks(state: DrawState, departure: number): number {
  return valueOf(state.columns, state.program.departures[departure]!.lead);
}

function openParts(schedule: Schedule, opened: number, last: number): void {
  const { steps, state } = schedule;
  schedule.now = opened;
  schedule.latest = opened;
  schedule.stacked = 0;
  schedule.unfinished = last - 1;
  for (let chain = last - 1; chain > 0; chain--) {
    schedule.week[chain] = opened;
    schedule.at[chain] = steps.chainStart[chain]!;
    push(schedule, chain);
  }
  if (schedule.pending.length < state.departureVisits.length) growDepartures(schedule);
  for (let i = 0; i < state.departureCount; i++) {
    const departure = state.departed[i]!;
    schedule.pending[departure] = state.departureVisits[departure]!;
    schedule.waitingOn[departure] = none;
    schedule.leaves[departure] = 0;
    schedule.leftEarly[departure] = 0;
  }
  if (steps.itemCount > 0) openItems(schedule, last);
}

function growDepartures(schedule: Schedule): void {
  const size = schedule.state.departureVisits.length;
  schedule.pending = new Int32Array(size);
  schedule.waitingOn = new Int32Array(size);
  schedule.leaves = new Float64Array(size);
  schedule.leftEarly = new Uint8Array(size);
}

/** Counts how often each linked item is done in this draw; one that is not done binds nobody. */
function openItems(schedule: Schedule, last: number): void {
  const { steps, toCome } = schedule;
  toCome.fill(0);
  schedule.finished.fill(0);
  schedule.behind.fill(none);
  const from = steps.itemStart[steps.chainStart[1]!]!;
  const to = steps.itemStart[steps.chainStart[last]!]!;
  for (let entry = from; entry < to; entry++) {
    const item = steps.items[entry]!;
    toCome[item] = toCome[item]! + 1;
  }
}

function push(schedule: Schedule, chain: number): void {
  schedule.stack[schedule.stacked] = chain;
  schedule.stacked += 1;
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
    finishStep(schedule, chain, step, kind === stepKind.until ? Math.max(week, weeks) : week + weeks);
    step += 1;
  }
  schedule.unfinished -= 1;
}

/** The chain's step is over at this week: what waited for its items goes on. */
function finishStep(schedule: Schedule, chain: number, step: number, week: number): void {
  const { steps } = schedule;
  schedule.week[chain] = week;
  schedule.at[chain] = step + 1;
  if (week > schedule.latest) schedule.latest = week;
  for (let entry = steps.itemStart[step]!; entry < steps.itemStart[step + 1]!; entry++) {
    finishItem(schedule, steps.items[entry]!, week);
  }
}

function finishItem(schedule: Schedule, item: number, week: number): void {
  schedule.toCome[item] = schedule.toCome[item]! - 1;
  schedule.finished[item] = week;
  if (schedule.toCome[item]! > 0) return;
  for (let chain = schedule.behind[item]!; chain !== none; chain = schedule.nextInList[chain]!)
    push(schedule, chain);
  schedule.behind[item] = none;
}

/** Lets the chain wait behind the first predecessor that is still to come; else moves it to the last one's finish. */
function isHeldBack(schedule: Schedule, chain: number, step: number): boolean {
  const { steps, state } = schedule;
  for (let entry = steps.itemStart[step]!; entry < steps.itemStart[step + 1]!; entry++) {
    for (const before of state.program.precedence.predecessors[steps.items[entry]!]!) {
      if (schedule.toCome[before]! > 0) {
        schedule.at[chain] = step;
        schedule.nextInList[chain] = schedule.behind[before]!;
        schedule.behind[before] = chain;
        return true;
      }
      schedule.week[chain] = Math.max(schedule.week[chain]!, schedule.finished[before]!);
    }
  }
  return false;
}

function waitForOwner(schedule: Schedule, chain: number, step: number): void {
  const rank = schedule.state.program.ownerRank[schedule.steps.target[step]!]!;
  const week = schedule.week[chain]!;
  schedule.at[chain] = step;
  schedule.chainOfRank[rank] = chain;
  if (week > schedule.latest) schedule.latest = week;
  if (week <= schedule.now + instantWeeks) addRank(schedule.ready, rank);
  else pushTime(schedule.future, week, rank);
}

/** A departure leaves when the last of its visits is ready; one that left early takes each other visit as it comes. */
function visit(schedule: Schedule, chain: number, step: number): void {
  const departure = schedule.steps.target[step]!;
  const week = schedule.week[chain]!;
  schedule.at[chain] = step;
  if (week > schedule.latest) schedule.latest = week;
  schedule.pending[departure] = schedule.pending[departure]! - 1;
  if (schedule.leftEarly[departure] === 1) {
    returnVisit(schedule, chain, week + leadWeeks(schedule.state, departure));
    return;
  }
  if (week > schedule.leaves[departure]!) schedule.leaves[departure] = week;
  schedule.nextInList[chain] = schedule.waitingOn[departure]!;
  schedule.waitingOn[departure] = chain;
  if (schedule.pending[departure] === 0) sendOff(schedule, departure, schedule.leaves[departure]!);
}

function sendOff(schedule: Schedule, departure: number, week: number): void {
  const back = week + leadWeeks(schedule.state, departure);
  let chain = schedule.waitingOn[departure]!;
  schedule.waitingOn[departure] = none;
  while (chain !== none) {
    const next = schedule.nextInList[chain]!;
    returnVisit(schedule, chain, back);
    chain = next;
  }
}

function returnVisit(schedule: Schedule, chain: number, back: number): void {
  const step = schedule.at[chain]!;
  finishStep(schedule, chain, step, back + schedule.steps.lead[step]!);
  push(schedule, chain);
}

/** Lets the owner do the next thing; where nothing can move, sends the first departure with a visit ready. */
function moveOn(schedule: Schedule): void {
  const { ready, future } = schedule;
  if (ready.size === 0 && future.size === 0) return sendEarly(schedule);
  if (ready.size === 0) schedule.now = Math.max(schedule.now, future.weeks[0]!);
  while (future.size > 0 && future.weeks[0]! <= schedule.now + instantWeeks) addRank(ready, popTime(future));
  const chain = schedule.chainOfRank[takeSmallest(ready)]!;
  const step = schedule.at[chain]!;
  schedule.now += schedule.steps.weeks[step]!;
  if (schedule.now > schedule.latest) schedule.latest = schedule.now;
  finishStep(schedule, chain, step, schedule.now + schedule.steps.lead[step]!);
  push(schedule, chain);
}

function sendEarly(schedule: Schedule): void {
  const { state } = schedule;
  let first = none;
  for (let i = 0; i < state.departureCount; i++) {
    const departure = state.departed[i]!;
    if (schedule.waitingOn[departure] === none) continue;
    if (first === none || orderOf(state, departure) < orderOf(state, first)) first = departure;
  }
  if (first === none) throw new DomainError("schedule-stuck", "no operation and no departure can move");
  schedule.leftEarly[first] = 1;
  sendOff(schedule, first, schedule.latest);
}

function orderOf(state: DrawState, departure: number): number {
  return state.program.departures[departure]!.order;
}
