import type { EstimateDocument } from "../domain/estimate-document.ts";
import type { EstimateResult } from "../domain/estimate-result.ts";
import { mostDrawsWithLines } from "../domain/limits.ts";
import { type SimulationOptions, withDefaults } from "../domain/simulation-options.ts";
import { compile } from "./compile.ts";
import { makeDrawState } from "./draw-state.ts";
import { makeOutcomeColumns } from "./outcome-columns.ts";
import { chunksOf } from "./replicates.ts";
import { resultOf } from "./result.ts";
import { makeSchedule } from "./schedule-state.ts";
import { simulateChunk } from "./simulate-chunk.ts";
import { type Simulation, simulationOf } from "./simulation.ts";

/**
 * Makes every draw of a document.
 *
 * @param document a document that has passed every rule
 * @param options draws, seed and sampling; defaults where absent
 */
export function simulation(document: EstimateDocument, options: SimulationOptions = {}): Simulation {
  const asked = withDefaults(options);
  const program = compile(document);
  const withLines = asked.draws <= mostDrawsWithLines;
  const outcomes = makeOutcomeColumns(program, asked.draws, withLines);
  const state = makeDrawState(program, asked.seed, asked.sampling);
  const schedule = makeSchedule(state);
  for (const chunk of chunksOf(asked.draws)) simulateChunk(state, schedule, chunk, outcomes);
  return simulationOf(program, asked, outcomes, withLines);
}

/**
 * Answers for a document: what it costs, takes and is worth, as distributions.
 *
 * @param document a document that has passed every rule
 * @param options draws, seed and sampling; defaults where absent
 * @returns the same result, bit for bit, for the same document, options and engine version
 */
export function simulate(document: EstimateDocument, options: SimulationOptions = {}): EstimateResult {
  return resultOf(simulation(document, options));
}
