import type { EstimateDocument } from "../../src/domain/estimate-document.ts";
import { withDefaults } from "../../src/domain/simulation-options.ts";
import { openChunk } from "../../src/simulation/columns.ts";
import { compile } from "../../src/simulation/compile.ts";
import { drawOnce } from "../../src/simulation/draw-once.ts";
import { makeDrawState } from "../../src/simulation/draw-state.ts";
import { makeOutcomeColumns } from "../../src/simulation/outcome-columns.ts";
import { chunksOf } from "../../src/simulation/replicates.ts";
import { resultOf } from "../../src/simulation/result.ts";
import { makeSchedule, scheduleDraw } from "../../src/simulation/schedule.ts";
import { simulateChunk } from "../../src/simulation/simulate-chunk.ts";
import { simulate } from "../../src/simulation/simulate.ts";
import { simulationOf } from "../../src/simulation/simulation.ts";

/** Milliseconds something takes: the median of so many runs after as many again to warm up, garbage collected before each. */
export function medianMs(runs: number, run: () => void): number {
  const times: number[] = [];
  for (let turn = -runs; turn < runs; turn++) {
    globalThis.gc?.();
    const start = performance.now();
    run();
    if (turn >= 0) times.push(performance.now() - start);
  }
  return times.sort((a, b) => a - b)[Math.floor(runs / 2)]!;
}

/** Makes the draws of a document, scheduled or not, and keeps nothing. */
function drawAll(document: EstimateDocument, draws: number, scheduled: boolean): () => void {
  const state = makeDrawState(compile(document), 1, "stratified");
  const schedule = makeSchedule(state);
  return () => {
    for (const chunk of chunksOf(draws)) {
      openChunk(state.columns, chunk.key, chunk.count);
      for (let draw = 0; draw < chunk.count; draw++) {
        drawOnce(state, draw);
        if (scheduled) scheduleDraw(schedule);
      }
    }
  };
}

/** Makes every draw and keeps its outcomes. */
function drawAndKeep(document: EstimateDocument, draws: number) {
  const program = compile(document);
  const state = makeDrawState(program, 1, "stratified");
  const schedule = makeSchedule(state);
  const outcomes = makeOutcomeColumns(program, draws, true);
  const run = () => {
    for (const chunk of chunksOf(draws)) simulateChunk(state, schedule, chunk, outcomes);
  };
  return { run, finish: () => simulationOf(program, withDefaults({ draws }), outcomes, true) };
}

/**
 * Milliseconds of each piece of a simulation, by name. Drawing, scheduling and keeping outcomes are one loop: the latter
 * two are told by difference.
 */
export function timePieces(document: EstimateDocument, draws: number, runs: number): Map<string, number> {
  const kept = drawAndKeep(document, draws);
  const drawMs = medianMs(runs, drawAll(document, draws, false));
  const scheduledMs = medianMs(runs, drawAll(document, draws, true));
  const keptMs = medianMs(runs, kept.run);
  const finished = kept.finish();
  return new Map([
    ["compile", medianMs(runs, () => void compile(document))],
    ["draws without schedule", drawMs],
    ["schedule", scheduledMs - drawMs],
    ["keeping outcomes", keptMs - scheduledMs],
    ["result", medianMs(runs, () => void resultOf(finished))],
    ["whole simulate()", medianMs(runs, () => void simulate(document, { draws }))],
  ]);
}
