import type { EstimateDocument } from "../domain/estimate-document.ts";
import { type SimulationOptions, withDefaults } from "../domain/simulation-options.ts";
import { startAdaptiveRun } from "./adaptive-run.ts";
import { startFixedRun } from "./fixed-run.ts";
import { makeHand } from "./hand.ts";
import type { SimulationRun } from "./simulation.ts";

/** What a simulation leaves out. */
export interface Leaving {
  /** False leaves the schedule out: every draw takes 0 weeks. */
  readonly schedule?: boolean;
}

/**
 * Begins a simulation.
 *
 * @param document a document that has passed every rule
 * @param options draws, seed, sampling and tolerance; defaults where absent
 */
export function startSimulation(
  document: EstimateDocument,
  options: SimulationOptions = {},
  { schedule = true }: Leaving = {},
): SimulationRun {
  const asked = withDefaults(options);
  const hand = makeHand(document, asked, schedule);
  const { draws, adaptive } = asked;
  return draws === "auto" ? startAdaptiveRun(hand, adaptive!, asked) : startFixedRun(hand, draws, asked);
}
