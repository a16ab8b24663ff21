import type { Sampling } from "../domain/estimate-result.ts";
import { type Columns, chunkCapacity, makeColumns } from "./columns.ts";
import { type DeparturePlan, type LotPlan, type Program, series } from "./program.ts";
import { type Steps, makeSteps } from "./steps.ts";

/** What one draw has come to so far: reset for each draw, never allocated in it. */
export interface DrawState {
  readonly program: Program;
  readonly columns: Columns;
  ownHoursPerWeek: number;
  benchRate: number;
  ownHours: number;
  shopHours: number;
  /** Cash by line. */
  readonly lineCash: Float64Array;
  /** All that goes to a supplier, by supplier. */
  readonly supplierCash: Float64Array;
  /** Departures of a supplier in this draw, by supplier. */
  readonly supplierDepartures: Int32Array;
  /** Cash by draw of the chunk x line, and by draw x supplier. */
  readonly lineRows: Float64Array;
  readonly supplierRows: Float64Array;
  /** Added to the finished value. */
  valueEffect: number;
  /** Route on the machine, by part; -1 when unresolved. */
  readonly fittedRoute: Int32Array;
  /** 1 when the finding is present, by finding. */
  readonly present: Uint8Array;
  /** 1 once the finding is paid, by finding. */
  readonly paid: Uint8Array;
  /** Visits of the part at hand by lot x 2 + series; the places counted so far. */
  readonly visits: Int32Array;
  readonly visited: Int32Array;
  visitedCount: number;
  /** Visits of whole-machine work, by lot. */
  readonly wholeVisits: Int32Array;
  /** Lot of the visit that the next operation may continue, or -1. */
  openLot: number;
  /** Departures that hold something in this draw, by index, `departureCount` of them. */
  departed: Int32Array;
  departureCount: number;
  /** By departure index: what its operations sum to before tax, and how many visits it holds. */
  departureSum: Float64Array;
  departureVisits: Int32Array;
  readonly steps: Steps;
}

/**
 * Makes the state of a simulation's draws.
 *
 * @param program the compiled document
 * @param seed integer in [0, 2^53)
 * @param sampling how draws are placed
 */
export function makeDrawState(program: Program, seed: number, sampling: Sampling | "typical"): DrawState {
  const { lines, suppliers, parts, findings, lots } = program;
  return {
    program,
    columns: makeColumns(seed, sampling, program),
    ownHoursPerWeek: 1,
    benchRate: 0,
    ownHours: 0,
    shopHours: 0,
    lineCash: new Float64Array(lines.length),
    supplierCash: new Float64Array(suppliers.length),
    supplierDepartures: new Int32Array(suppliers.length),
    lineRows: new Float64Array(chunkCapacity * lines.length),
    supplierRows: new Float64Array(chunkCapacity * suppliers.length),
    valueEffect: 0,
    fittedRoute: new Int32Array(parts.length),
    present: new Uint8Array(findings.length),
    paid: new Uint8Array(findings.length),
    visits: new Int32Array(lots.length * 2),
    visited: new Int32Array(lots.length * 2),
    visitedCount: 0,
    wholeVisits: new Int32Array(lots.length),
    openLot: -1,
    departed: new Int32Array(64),
    departureCount: 0,
    departureSum: new Float64Array(64),
    departureVisits: new Int32Array(64),
    steps: makeSteps(parts.length + findings.length + 2),
  };
}

/**
 * Counts a visit of the part at hand, or of whole-machine work.
 *
 * @param lot position of the lot
 * @param joins series of the departures it may join
 * @returns how many came before it
 */
export function countVisit(state: DrawState, lot: number, joins: number): number {
  if (joins === series.whole) {
    const before = state.wholeVisits[lot]!;
    state.wholeVisits[lot] = before + 1;
    return before;
  }
  const place = lot * 2 + joins;
  const before = state.visits[place]!;
  if (before === 0) {
    state.visited[state.visitedCount] = place;
    state.visitedCount += 1;
  }
  state.visits[place] = before + 1;
  return before;
}

/** Forgets the visits of one part before the next. */
export function forgetVisits(state: DrawState): void {
  for (let i = 0; i < state.visitedCount; i++) state.visits[state.visited[i]!] = 0;
  state.visitedCount = 0;
}

/** The departure of a lot's series by number from 0, compiled when a draw first needs it. */
export function departureOf(lot: LotPlan, joins: number, number: number): DeparturePlan {
  const departures = lot.departures[joins as 0 | 1 | 2];
  while (departures.length <= number) departures.push(lot.compileDeparture(joins, departures.length));
  return departures[number]!;
}

/** Puts a visit on a departure. */
export function joinDeparture(state: DrawState, index: number): void {
  if (index >= state.departureSum.length) growDepartures(state, index);
  if (state.departureVisits[index] === 0) {
    state.departed[state.departureCount] = index;
    state.departureCount += 1;
    state.departureSum[index] = 0;
  }
  state.departureVisits[index] = state.departureVisits[index]! + 1;
}

function growDepartures(state: DrawState, index: number): void {
  const size = (index + 1) * 2;
  const departed = new Int32Array(size);
  departed.set(state.departed);
  const sums = new Float64Array(size);
  sums.set(state.departureSum);
  const visits = new Int32Array(size);
  visits.set(state.departureVisits);
  Object.assign(state, { departed, departureSum: sums, departureVisits: visits });
}
