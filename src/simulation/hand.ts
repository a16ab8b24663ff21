import type { EstimateDocument } from "../domain/estimate-document.ts";
import type { CompleteSimulationOptions } from "../domain/simulation-options.ts";
import { type ChunkState, makeChunkState } from "./chunk-state.ts";
import { compile } from "./compile.ts";
import { makeDrawState } from "./draw-state.ts";
import type { Program } from "./program.ts";
import { type Schedule, makeSchedule } from "./schedule-state.ts";

/** Whoever makes draws of a document: the compiled program and room for one chunk. */
export interface Hand {
  readonly program: Program;
  readonly state: ChunkState;
  /** Absent when nothing is to be scheduled. */
  readonly schedule: Schedule | undefined;
}

/**
 * Prepares to make draws of a document; any number of hands make the same draws.
 *
 * @param document a document that has passed every rule
 * @param options seed and sampling
 * @param scheduled whether the draws are to be scheduled
 */
export function makeHand(
  document: EstimateDocument,
  { seed, sampling }: Pick<CompleteSimulationOptions, "seed" | "sampling">,
  scheduled: boolean,
): Hand {
  const program = compile(document);
  const state = makeChunkState(program, seed, sampling, scheduled);
  const schedule = scheduled ? makeSchedule(makeDrawState(program)) : undefined;
  return { program, state, schedule };
}
