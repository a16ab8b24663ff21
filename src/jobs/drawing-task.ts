import type { EstimateDocument } from "../domain/estimate-document.ts";
import type { EstimateResult } from "../domain/estimate-result.ts";
import { mostDrawsWithLines } from "../domain/limits.ts";
import type { CompleteSimulationOptions } from "../domain/simulation-options.ts";
import { type Hand, makeHand } from "../simulation/hand.ts";
import { type OutcomeColumns, forgetReplicate, makeOutcomeColumns } from "../simulation/outcome-columns.ts";
import { type Chunk, chunksOf, operationDrawsOf, replicateStarts } from "../simulation/replicates.ts";
import { type ResultPart, resultFrom, resultParts } from "../simulation/result.ts";
import { simulateChunk } from "../simulation/simulate-chunk.ts";
import { simulationOf } from "../simulation/simulation.ts";
import { type Claims, claimNext, settleClaim } from "./claims.ts";

/** One thread's part in a simulation that several draw together. */
export interface DrawingTask {
  readonly hand: Hand;
  readonly options: CompleteSimulationOptions;
  readonly starts: Int32Array;
  readonly chunks: readonly Chunk[];
  readonly withLines: boolean;
}

/**
 * Prepares a thread for its part.
 *
 * @param draws how many all threads make together
 */
export function prepareTask(
  document: EstimateDocument,
  options: CompleteSimulationOptions,
  draws: number,
): DrawingTask {
  const starts = replicateStarts(draws);
  return {
    hand: makeHand(document, options, true),
    options,
    starts,
    chunks: chunksOf(starts),
    withLines: draws <= mostDrawsWithLines,
  };
}

/** Room for every draw, in memory that all threads write to: no two of them to the same place. */
export function sharedRoom({ hand, starts, chunks, withLines }: DrawingTask): OutcomeColumns {
  const allocate = (bytes: number) => new SharedArrayBuffer(bytes);
  return makeOutcomeColumns(hand.program, starts, operationDrawsOf(chunks), withLines, allocate);
}

/** Draws one replicate after the other until every one is somebody's. */
export function drawUnclaimed(
  task: DrawingTask,
  outcomes: OutcomeColumns,
  claims: Claims,
  claimant: number,
): void {
  for (;;) {
    const replicate = claimNext(claims, claimant);
    if (replicate < 0) return;
    drawReplicate(task, outcomes, replicate);
    settleClaim(claims, replicate);
  }
}

/** Somebody who died may have drawn half of it: rows are written over, counts must begin at nothing. */
function drawReplicate(task: DrawingTask, outcomes: OutcomeColumns, replicate: number): void {
  const { state, schedule } = task.hand;
  forgetReplicate(outcomes, replicate);
  for (const chunk of task.chunks) {
    if (chunk.replicate === replicate) simulateChunk(state, schedule, chunk, outcomes);
  }
}

/** A part of the result by its place among all. */
export type PlacedPart = readonly [place: number, part: ResultPart];

/**
 * Measures one part of the result after the other until every one is somebody's.
 *
 * @param outcomes of all draws
 */
export function measureUnclaimed(
  task: DrawingTask,
  outcomes: OutcomeColumns,
  claims: Claims,
  claimant: number,
): PlacedPart[] {
  const { hand, options, starts, withLines } = task;
  const stopped = "all draws asked for were made";
  const simulation = simulationOf(hand.program, options, starts, outcomes, withLines, stopped);
  const parts: PlacedPart[] = [];
  for (;;) {
    const place = claimNext(claims, claimant);
    if (place < 0) return parts;
    parts.push([place, resultParts[place]!(simulation)]);
  }
}

/** The result from all its parts, whoever measured them. */
export function putTogether(parts: readonly PlacedPart[]): EstimateResult {
  return resultFrom([...parts].sort(([a], [b]) => a - b).map(([, part]) => part));
}
