import type { ChunkState } from "./chunk-state.ts";
import type { Program } from "./program.ts";
import { type Steps, makeSteps } from "./steps.ts";
import { assembleSteps } from "./work-log.ts";

/** One draw as its schedule sees it: its steps, and the departures that hold something. */
export interface DrawState {
  readonly program: Program;
  readonly steps: Steps;
  /** Departures that hold something in this draw, by index, `departureCount` of them. */
  departed: Int32Array;
  departureCount: number;
  /** By departure index: visits it holds, weeks it is away. */
  departureVisits: Int32Array;
  departureLead: Float64Array;
}

/**
 * Makes the view of a chunk's draws, one at a time.
 */
export function makeDrawState(program: Program): DrawState {
  const chains = program.parts.length + program.findings.length + 2;
  return {
    program,
    steps: makeSteps(chains),
    departed: new Int32Array(0),
    departureCount: 0,
    departureVisits: new Int32Array(0),
    departureLead: new Float64Array(0),
  };
}

/** Turns to one draw of the chunk just drawn. */
export function openDraw(state: DrawState, { departures, log }: ChunkState, draw: number): void {
  if (log !== undefined) assembleSteps(log, draw, state.steps);
  if (departures.held.length > state.departureVisits.length) grow(state, departures.held.length * 2);
  state.departureCount = 0;
  for (const index of departures.used) {
    const visits = departures.held[index]![draw]!;
    if (visits === 0) continue;
    state.departed[state.departureCount] = index;
    state.departureCount += 1;
    state.departureVisits[index] = visits;
    state.departureLead[index] = departures.lead[index]![draw]!;
  }
}

function grow(state: DrawState, size: number): void {
  state.departed = new Int32Array(size);
  state.departureVisits = new Int32Array(size);
  state.departureLead = new Float64Array(size);
}
