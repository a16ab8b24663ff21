import { chunkCapacity } from "./columns.ts";
import type { DrawList } from "./draw-list.ts";
import { type LotPlan, type Program, series } from "./program.ts";

/** The departures of a chunk's draws: each draw's visits, and what is on each departure. */
export interface Departures {
  /** Visits so far of the part at hand by lot x 2 + series, and of whole-machine work by lot; then by draw. */
  readonly visits: Int32Array[];
  readonly wholeVisits: Int32Array[];
  /** Which of `visits` the part at hand has used, which of `wholeVisits` the chunk. */
  readonly visited: Set<number>;
  readonly wholeVisited: Set<number>;
  /** By departure index, then draw: what its operations sum to before tax, visits it holds, weeks it is away. */
  readonly sum: Float64Array[];
  readonly held: Int32Array[];
  readonly lead: Float64Array[];
  /** Departures that hold something in any draw of the chunk, by index. */
  readonly used: Set<number>;
}

/** Makes an empty book of departures. */
export function makeDepartures(lots: number): Departures {
  const columns = (count: number) => Array.from({ length: count }, () => new Int32Array(chunkCapacity));
  return {
    visits: columns(lots * 2),
    wholeVisits: columns(lots),
    visited: new Set(),
    wholeVisited: new Set(),
    sum: [],
    held: [],
    lead: [],
    used: new Set(),
  };
}

/** Forgets the visits of one part before the next. */
export function forgetVisits(departures: Departures): void {
  for (const place of departures.visited) departures.visits[place]!.fill(0);
  departures.visited.clear();
}

/** Forgets everything before the next chunk. */
export function clearDepartures(departures: Departures): void {
  forgetVisits(departures);
  for (const lot of departures.wholeVisited) departures.wholeVisits[lot]!.fill(0);
  departures.wholeVisited.clear();
  for (const index of departures.used) {
    departures.sum[index]!.fill(0);
    departures.held[index]!.fill(0);
  }
  departures.used.clear();
}

/**
 * Puts a visit on the departure it joins, in some draws.
 *
 * @param lot position of the lot
 * @param joins by draw: series of the departures it may join
 * @param list the draws
 * @param joined receives the departure's index, by draw
 */
export function joinDepartures(
  departures: Departures,
  program: Program,
  lot: number,
  joins: Uint8Array,
  { draws, count }: DrawList,
  joined: Int32Array,
): void {
  const plan = program.lots[lot]!;
  let joining = -1;
  let visits = departures.wholeVisits[lot]!;
  let number = -1;
  let index = -1;
  let held = visits;
  for (let place = 0; place < count; place++) {
    const draw = draws[place]!;
    if (joins[draw] !== joining) {
      joining = joins[draw]!;
      visits = visitsOf(departures, lot, joining);
      number = -1;
    }
    const before = visits[draw]!;
    if (before !== number) {
      number = before;
      index = departureOf(plan, joining, number);
      held = open(departures, index);
    }
    visits[draw] = before + 1;
    held[draw] = held[draw]! + 1;
    joined[draw] = index;
  }
}

function visitsOf(departures: Departures, lot: number, joins: number): Int32Array {
  if (joins === series.whole) {
    departures.wholeVisited.add(lot);
    return departures.wholeVisits[lot]!;
  }
  departures.visited.add(lot * 2 + joins);
  return departures.visits[lot * 2 + joins]!;
}

/** Notes that a departure holds something. @returns visits it holds, by draw */
function open(departures: Departures, index: number): Int32Array {
  departures.used.add(index);
  departures.sum[index] ??= new Float64Array(chunkCapacity);
  departures.lead[index] ??= new Float64Array(chunkCapacity);
  return (departures.held[index] ??= new Int32Array(chunkCapacity));
}

/** The index of a lot's departure by number from 0, compiled when a draw first needs it. */
function departureOf(lot: LotPlan, joins: number, number: number): number {
  const departures = lot.departures[joins as 0 | 1 | 2];
  while (departures.length <= number) departures.push(lot.compileDeparture(joins, departures.length));
  return departures[number]!.index;
}

/**
 * Lists the draws in which a departure holds something.
 *
 * @param list receives them
 */
export function listDeparting(
  departures: Departures,
  index: number,
  { draws, count }: DrawList,
  list: DrawList,
): void {
  const held = departures.held[index]!;
  list.count = 0;
  for (let place = 0; place < count; place++) {
    const draw = draws[place]!;
    if (held[draw] === 0) continue;
    list.draws[list.count] = draw;
    list.count += 1;
  }
}
