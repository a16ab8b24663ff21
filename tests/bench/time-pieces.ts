import type { EstimateDocument } from "../../src/domain/estimate-document.ts";
import { withDefaults } from "../../src/domain/simulation-options.ts";
import { openChunk } from "../../src/simulation/columns.ts";
import { compile } from "../../src/simulation/compile.ts";
import { drawOnce } from "../../src/simulation/draw-once.ts";
import { makeDrawState } from "../../src/simulation/draw-state.ts";
import { makeOutcomeColumns } from "../../src/simulation/outcome-columns.ts";
import { chunksOf } from "../../src/simulation/replicates.ts";
import { resultOf } from "../../src/simulation/result.ts";
import { scheduleDraw } from "../../src/simulation/schedule.ts";
import { makeSchedule } from "../../src/simulation/schedule-state.ts";
import { simulateChunk } from "../../src/simulation/simulate-chunk.ts";
import { simulate } from "../../src/simulation/simulate.ts";
import { simulationOf } from "../../src/simulation/simulation.ts";

/**
 * Milliseconds some things take: the median of so many runs each after as many again to warm up, taken in turns so that a
 * busy spell of the machine strikes all alike; garbage is collected before each.
 */
function mediansMs(runs: number, things: readonly (() => void)[]): number[] {
  const times = things.map((): number[] => []);
  for (let turn = -runs; turn < runs; turn++) {
    things.forEach((run, which) => {
      globalThis.gc?.();
      const start = performance.now();
      run();
      if (turn >= 0) times[which]!.push(performance.now() - start);
    });
  }
  return times.map((each) => each.sort((a, b) => a - b)[Math.floor(runs / 2)]!);
}

/** Milliseconds one thing takes, likewise. */
export function medianMs(runs: number, run: () => void): number {
  return mediansMs(runs, [run])[0]!;
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
  kept.run();
  const finished = kept.finish();
  const [compileMs, drawMs, scheduledMs, keptMs, resultMs, wholeMs] = mediansMs(runs, [
    () => void compile(document),
    drawAll(document, draws, false),
    drawAll(document, draws, true),
    kept.run,
    () => void resultOf(finished),
    () => void simulate(document, { draws }),
  ]) as [number, number, number, number, number, number];
  return new Map([
    ["compile", compileMs],
    ["draws without schedule", drawMs],
    ["schedule", scheduledMs - drawMs],
    ["keeping outcomes", keptMs - scheduledMs],
    ["result", resultMs],
    ["whole simulate()", wholeMs],
  ]);
}
