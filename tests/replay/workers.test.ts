import { expect, test } from "vitest";
import { createParallelSimulator } from "../../src/jobs/parallel-simulation.ts";
import { withDyingThreads } from "../jobs/with-dying-threads.ts";
import { type CorpusRun, runName } from "./corpus-entry.ts";
import frozen from "./fixtures/digests.json" with { type: "json" };
import { readCorpus } from "./read-corpus.ts";

/** Five threads on one busy core compile every document five times. */
const patience = { timeout: 240_000 };
const corpus = readCorpus();
const digests: Record<string, string> = frozen.digests;

function isWhole({ options, partial, unscheduled }: CorpusRun): boolean {
  return options.sampling === "stratified" && !partial && !unscheduled;
}

// Frozen: guards change, not truth. How draws are placed is no matter of who makes them: stratified ones will do.
test.each([1, 2, 5])("%i threads that share the draws give the same digests", patience, async (threads) => {
  const simulator = createParallelSimulator({ threads });
  for (const entry of corpus) {
    for (const run of entry.runs.filter(isWhole)) {
      const { resultDigest } = await simulator.simulate(entry.document, run.options);
      expect(resultDigest, runName(entry, run)).toBe(digests[runName(entry, run)]);
    }
  }
  await simulator.close();
});

// Frozen. Of the threads, one, two and three die, each with a replicate drawn that nobody knows of.
test.each([1, 2, 5])("%i threads, some killed half way, give the same digests", patience, async (threads) => {
  const demo = corpus.find(({ name }) => name.startsWith("demo/"))!;
  const run = demo.runs.at(-1)!;
  const simulator = withDyingThreads(threads, Math.min(threads, 3));
  const { resultDigest } = await simulator.simulate(demo.document, run.options);
  expect(resultDigest).toBe(digests[runName(demo, run)]);
  await simulator.close();
});
