import type { DrawState } from "./draw-state.ts";
import { type RankSet, makeRankSet } from "./rank-set.ts";
import type { Steps } from "./steps.ts";
import { type TimeHeap, makeTimeHeap } from "./time-heap.ts";

/** No chain follows in a list of chains. */
export const none = -1;

/** In place of the step at whose end another began: the opening of the parts, or a hunt that runs from week 0 by itself. */
export const began = { opened: -1, byItself: -2 } as const;

/**
 * The state of one draw's schedule. Chains run ahead as far as they can without the owner or a departure that is not
 * complete; a chain that stops is ready for the owner, on a departure, or behind an item that is not finished.
 */
export interface Schedule {
  readonly state: DrawState;
  steps: Steps;
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
  /** By step: the step at whose end it began, see `began`. */
  startedBy: Int32Array;
  /** By chain: the step at whose end it came to its week, and likewise the latest week, the owner's and an item's. */
  readonly readyBy: Int32Array;
  latestBy: number;
  ownerBy: number;
  readonly finishedBy: Int32Array;
  /** Draws whose critical path was traced; by item, the last of them that it was on. */
  traced: number;
  readonly lastTraced: Int32Array;
  /** By departure: the step at whose end the visit was ready that it leaves with. */
  leavesBy: Int32Array;
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
    startedBy: new Int32Array(256),
    readyBy: new Int32Array(chains),
    latestBy: began.opened,
    ownerBy: began.opened,
    finishedBy: new Int32Array(items),
    traced: 0,
    lastTraced: new Int32Array(items),
    leavesBy: new Int32Array(0),
    nextInList: new Int32Array(chains),
    toCome: new Int32Array(items),
    finished: new Float64Array(items),
    behind: new Int32Array(items),
  };
}

/** Opens the schedule of the draw just made: every chain but the first and the last stands at this week. */
export function openParts(schedule: Schedule, opened: number, last: number): void {
  const { steps, state } = schedule;
  schedule.now = opened;
  schedule.latest = opened;
  schedule.latestBy = began.opened;
  schedule.ownerBy = began.opened;
  if (schedule.startedBy.length < steps.count) schedule.startedBy = new Int32Array(steps.count * 2);
  schedule.stacked = 0;
  schedule.unfinished = last - 1;
  for (let chain = last - 1; chain > 0; chain--) {
    schedule.week[chain] = opened;
    schedule.readyBy[chain] = began.opened;
    schedule.at[chain] = steps.chainStart[chain]!;
    push(schedule, chain);
  }
  if (schedule.pending.length < state.departureVisits.length) growDepartures(schedule);
  for (let i = 0; i < state.departureCount; i++) {
    const departure = state.departed[i]!;
    schedule.pending[departure] = state.departureVisits[departure]!;
    schedule.waitingOn[departure] = none;
    schedule.leaves[departure] = -1;
    schedule.leftEarly[departure] = 0;
  }
  if (steps.itemCount > 0) openItems(schedule, last);
}

function growDepartures(schedule: Schedule): void {
  const size = schedule.state.departureVisits.length;
  schedule.pending = new Int32Array(size);
  schedule.waitingOn = new Int32Array(size);
  schedule.leaves = new Float64Array(size);
  schedule.leavesBy = new Int32Array(size);
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

/** Puts a chain among those to be run ahead. */
export function push(schedule: Schedule, chain: number): void {
  schedule.stack[schedule.stacked] = chain;
  schedule.stacked += 1;
}
