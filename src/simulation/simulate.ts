import type { EstimateDocument } from "../domain/estimate-document.ts";
import type { EstimateResult } from "../domain/estimate-result.ts";
import type { SimulationOptions } from "../domain/simulation-options.ts";
import { resultOf } from "./result.ts";
import { type Leaving, startSimulation } from "./simulation-run.ts";
import type { Simulation } from "./simulation.ts";

/**
 * Makes every draw of a document.
 *
 * @param document a document that has passed every rule
 * @param options draws, seed, sampling and tolerance; defaults where absent
 * @param leaving what is left out
 */
export function simulation(
  document: EstimateDocument,
  options: SimulationOptions = {},
  leaving: Leaving = {},
): Simulation {
  const run = startSimulation(document, options, leaving);
  while (run.step());
  return run.simulation();
}

/**
 * Answers for a document: what it costs, takes and is worth, as distributions.
 *
 * @param document a document that has passed every rule
 * @param options draws, seed, sampling and tolerance; defaults where absent
 * @returns the same result, bit for bit, for the same document, options and engine version
 */
export function simulate(document: EstimateDocument, options: SimulationOptions = {}): EstimateResult {
  return resultOf(simulation(document, options));
}
