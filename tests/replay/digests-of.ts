import type { EstimateDocument } from "../../src/domain/estimate-document.ts";
import { resultOf } from "../../src/simulation/result.ts";
import { simulate, simulation } from "../../src/simulation/simulate.ts";
import { startSimulation } from "../../src/simulation/simulation-run.ts";
import { type CorpusEntry, type CorpusRun, runName } from "./corpus-entry.ts";

/** Digests of the results of every run of a corpus, by name of the run. */
export function digestsOf(corpus: readonly CorpusEntry[]): Record<string, string> {
  const digests: Record<string, string> = {};
  for (const entry of corpus) {
    for (const run of entry.runs) digests[runName(entry, run)] = digestOfRun(entry.document, run);
  }
  return digests;
}

/** The digest of a run's result; before that of one under way, how far it has come. */
function digestOfRun(document: EstimateDocument, { options, partial, unscheduled }: CorpusRun): string {
  if (partial) {
    const run = startSimulation(document, options);
    run.step();
    return `${run.progress} ${run.partial().resultDigest}`;
  }
  if (unscheduled) return resultOf(simulation(document, options, { schedule: false })).resultDigest;
  return simulate(document, options).resultDigest;
}
