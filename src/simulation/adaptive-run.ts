import { batchDraws, fewestBatches, mostDrawsWithLines } from "../domain/limits.ts";
import type { Adaptive, CompleteSimulationOptions } from "../domain/simulation-options.ts";
import { widthOverTolerance } from "./adaptive-width.ts";
import type { Hand } from "./hand.ts";
import { type OutcomeColumns, copyDraws, makeOutcomeColumns } from "./outcome-columns.ts";
import { chunksOf, operationDrawsOf } from "./replicates.ts";
import { resultOf } from "./result.ts";
import { simulateChunk } from "./simulate-chunk.ts";
import { type SimulationRun, simulationOf } from "./simulation.ts";

/** How much the number of batches grows between looks: looking often finds a lucky moment. */
const growth = 1.25;

const underWay = "draws so far";

/** Where each of so many batches begins, and the number of draws. */
function batchStarts(batches: number): Int32Array {
  return Int32Array.from({ length: batches + 1 }, (_, batch) => batch * batchDraws);
}

/**
 * Begins a simulation that makes as many draws as its tolerance needs: batches of 1,000 draws, each stratified in itself
 * and independent of the others, at least eight. After ever more batches it looks whether the 95 % interval (Student's t)
 * of every figure asked for is within the tolerance.
 *
 * @param adaptive when it stops
 * @see JCGM 101:2008, 7.9, whose adaptive procedure this follows in its idea
 */
export function startAdaptiveRun(
  hand: Hand,
  adaptive: Adaptive,
  options: CompleteSimulationOptions,
): SimulationRun {
  const { program, state, schedule } = hand;
  const mostBatches = Math.floor(adaptive.mostDraws / batchDraws);
  const withLines = mostBatches * batchDraws <= mostDrawsWithLines;
  let starts = batchStarts(0);
  let outcomes: OutcomeColumns = roomFor(starts);
  let stopped = underWay;
  const now = () => simulationOf(program, options, starts, outcomes, withLines, stopped);

  function roomFor(batches: Int32Array): OutcomeColumns {
    return makeOutcomeColumns(program, batches, operationDrawsOf(chunksOf(batches)), withLines);
  }

  /** Makes batches up to a number of them. */
  function makeBatches(count: number): void {
    const made = starts.length - 1;
    const all = batchStarts(count);
    const grown = roomFor(all);
    copyDraws(outcomes, grown);
    for (const chunk of chunksOf(all).slice(made)) simulateChunk(state, schedule, chunk, grown);
    starts = all;
    outcomes = grown;
  }

  return {
    get progress() {
      return stopped === underWay ? (starts.length - 1) / mostBatches : 1;
    },
    step() {
      const made = starts.length - 1;
      makeBatches(Math.min(mostBatches, Math.max(fewestBatches, Math.ceil(made * growth))));
      const widest = widthOverTolerance(now(), adaptive);
      if (widest <= 1) stopped = "every figure asked for is within the tolerance";
      else if (starts.length - 1 >= mostBatches) stopped = "the most draws allowed were made";
      else return true;
      return false;
    },
    partial: () => resultOf(now()),
    simulation: now,
  };
}
