import type { ChunkState } from "./chunk-state.ts";
import type { Program } from "./program.ts";
import { type Steps, makeSteps } from "./steps.ts";
import { assembleSteps, blockDraws } from "./work-log.ts";

/** One draw as its schedule sees it: its steps, and the departures that hold something. */
export interface DrawState {
  readonly program: Program;
  steps: Steps;
  /** Of the block of draws that this one is in. */
  readonly block: readonly Steps[];
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
  const block = Array.from({ length: blockDraws }, () => makeSteps(chains));
  return {
    program,
    steps: block[0]!,
    block,
    departed: new Int32Array(0),
    departureCount: 0,
    departureVisits: new Int32Array(0),
    departureLead: new Float64Array(0),
  };
}

/** Turns to one draw of the chunk just drawn; draws are turned to in order. */
export function openDraw(state: DrawState, { departures, log, whole }: ChunkState, draw: number): void {
  const place = draw % blockDraws;
  if (log !== undefined && place === 0) {
    assembleSteps(log, draw, Math.min(whole.count, draw + blockDraws), state.block);
  }
  state.steps = state.block[place]!;
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
