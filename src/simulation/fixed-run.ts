import { mostDrawsWithLines } from "../domain/limits.ts";
import type { CompleteSimulationOptions } from "../domain/simulation-options.ts";
import type { Hand } from "./hand.ts";
import { makeOutcomeColumns, takeDraws } from "./outcome-columns.ts";
import { type Chunk, chunksOf, operationDrawsOf, replicateStarts } from "./replicates.ts";
import { resultOf } from "./result.ts";
import { simulateChunk } from "./simulate-chunk.ts";
import { type SimulationRun, simulationOf } from "./simulation.ts";

/**
 * Begins a simulation of a fixed number of draws: a round is the next chunk of every replicate.
 *
 * @param draws how many
 */
export function startFixedRun(hand: Hand, draws: number, options: CompleteSimulationOptions): SimulationRun {
  const { program, state, schedule } = hand;
  const starts = replicateStarts(draws);
  const chunks = chunksOf(starts);
  const withLines = draws <= mostDrawsWithLines;
  const outcomes = makeOutcomeColumns(program, starts, operationDrawsOf(chunks), withLines);
  const rounds = roundsOf(chunks, starts.length - 1);
  const stopped = "all draws asked for were made";
  let made = 0;
  return {
    get progress() {
      return made / rounds.length;
    },
    step() {
      for (const chunk of rounds[made]!) simulateChunk(state, schedule, chunk, outcomes);
      made += 1;
      return made < rounds.length;
    },
    partial() {
      const ends = starts.slice(1);
      if (made < rounds.length) for (const { replicate, start } of rounds[made]!) ends[replicate] = start;
      const taken = takeDraws(program, outcomes, starts, ends, withLines);
      return resultOf(
        simulationOf(program, options, taken.starts, taken.outcomes, withLines, "draws so far"),
      );
    },
    simulation: () => simulationOf(program, options, starts, outcomes, withLines, stopped),
  };
}

/** Chunk by chunk through all replicates at once. */
function roundsOf(chunks: readonly Chunk[], replicates: number): Chunk[][] {
  const rounds: Chunk[][] = [];
  for (const chunk of chunks) (rounds[Math.floor(chunk.key / replicates)] ??= []).push(chunk);
  return rounds;
}
