import type { Sampling } from "../domain/estimate-result.ts";
import { type Columns, makeColumns } from "./columns.ts";
import type { DeparturePlan, LotPlan, Program } from "./program.ts";
import { type Steps, makeSteps } from "./steps.ts";

/** What one draw has come to so far: reset for each draw, never allocated in it. */
export interface DrawState {
  readonly program: Program;
  readonly columns: Columns;
  /** Position of the draw in its chunk. */
  draw: number;
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
  /** Added to the finished value. */
  valueEffect: number;
  /** Route on the machine, by part; -1 when unresolved. */
  readonly fittedRoute: Int32Array;
  /** 1 when the finding is present, by finding. */
  readonly present: Uint8Array;
  /** 1 once the finding is paid, by finding. */
  readonly paid: Uint8Array;
  /** Visits of the part at hand, by lot x 3 + series. */
  readonly visits: Int32Array;
  /** Visits of whole-machine work, likewise. */
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
    columns: makeColumns(seed, sampling, program.drivers),
    draw: 0,
    ownHoursPerWeek: 1,
    benchRate: 0,
    ownHours: 0,
    shopHours: 0,
    lineCash: new Float64Array(lines.length),
    supplierCash: new Float64Array(suppliers.length),
    supplierDepartures: new Int32Array(suppliers.length),
    valueEffect: 0,
    fittedRoute: new Int32Array(parts.length),
    present: new Uint8Array(findings.length),
    paid: new Uint8Array(findings.length),
    visits: new Int32Array(lots.length * 3),
    wholeVisits: new Int32Array(lots.length * 3),
    openLot: -1,
    departed: new Int32Array(64),
    departureCount: 0,
    departureSum: new Float64Array(64),
    departureVisits: new Int32Array(64),
    steps: makeSteps(parts.length + findings.length + 2),
  };
}

/** The departure of a lot's series by number from 0, compiled when a draw first needs it. */
export function departureOf(lot: LotPlan, series: number, number: number): DeparturePlan {
  const departures = lot.departures[series as 0 | 1 | 2];
  while (departures.length <= number) departures.push(lot.compileDeparture(series, departures.length));
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
