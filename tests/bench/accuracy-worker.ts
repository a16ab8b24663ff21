import type { EstimateDocument } from "../../src/domain/estimate-document.ts";
import type { SimulationOptions } from "../../src/domain/simulation-options.ts";
import { simulate } from "../../src/simulation/simulate.ts";
import { type Runs, makeRuns, noteRun } from "./accuracy-runs.ts";

/** What a process of its own is asked: one document with many seeds. */
export interface SeedsTask {
  readonly document: EstimateDocument;
  readonly options: SimulationOptions;
  readonly seeds: readonly number[];
}

function runSeeds({ document, options, seeds }: SeedsTask): Runs {
  const runs = makeRuns(seeds.length);
  seeds.forEach((seed, run) => noteRun(runs, run, simulate(document, { ...options, seed })));
  return runs;
}

process.on("message", (task: SeedsTask) => {
  const runs = runSeeds(task);
  if (process.connected) process.send!(runs);
});
