import type { EstimateDocument } from "../domain/estimate-document.ts";
import type { EstimateResult } from "../domain/estimate-result.ts";
import type { SimulationOptions } from "../domain/simulation-options.ts";
import { resultOf } from "../simulation/result.ts";
import { startSimulation } from "../simulation/simulation-run.ts";

/** How far a simulation has come. */
export interface SimulationAdvance {
  /** Share of the draws made, 0 to 1. */
  readonly progress: number;
  /** Result of the draws made so far, now and then. */
  readonly partial?: EstimateResult;
}

const betweenAdvancesMs = 200;
const betweenPartialsMs = 500;
/** A partial result costs about what the last one does: this many draws more each time keep all of them cheap. */
const partialGrowth = 2;

/**
 * Simulates and tells on the way how far it is. Each partial result has twice the draws of the one before.
 *
 * @param tell not called for what is over in a fraction of a second
 */
export function runWithProgress(
  document: EstimateDocument,
  options: SimulationOptions,
  tell: (advance: SimulationAdvance) => void,
): EstimateResult {
  const run = startSimulation(document, options);
  const partial = { atMs: performance.now(), progress: 0 };
  let toldMs = partial.atMs;
  while (run.step()) {
    const now = performance.now();
    if (now - toldMs < betweenAdvancesMs) continue;
    toldMs = now;
    const { progress } = run;
    if (now - partial.atMs >= betweenPartialsMs && progress >= partial.progress * partialGrowth) {
      tell({ progress, partial: run.partial() });
      Object.assign(partial, { atMs: performance.now(), progress });
    } else {
      tell({ progress });
    }
  }
  return resultOf(run.simulation());
}
