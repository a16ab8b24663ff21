import fc from "fast-check";
import { describe, expect, test } from "vitest";
import type { EstimateDocument } from "../../src/domain/estimate-document.ts";
import { withDefaults } from "../../src/domain/simulation-options.ts";
import { compile } from "../../src/simulation/compile.ts";
import { makeDrawState } from "../../src/simulation/draw-state.ts";
import { makeOutcomeColumns } from "../../src/simulation/outcome-columns.ts";
import { chunksOf } from "../../src/simulation/replicates.ts";
import { resultOf } from "../../src/simulation/result.ts";
import { makeSchedule } from "../../src/simulation/schedule-state.ts";
import { simulate } from "../../src/simulation/simulate.ts";
import { simulateChunk } from "../../src/simulation/simulate-chunk.ts";
import { simulationOf } from "../../src/simulation/simulation.ts";
import { generatedDocument } from "./plain/generated-document.ts";
import { cases, documentSeeds } from "./properties.ts";

/** Several chunks a replicate would need more than 16,384 draws; one each will do to deal them out. */
const draws = 320;

/** The result with the chunks taken in reverse, dealt out among so many hands that share nothing but where they write. */
function dealtResult(document: EstimateDocument, hands: number, seed: number) {
  const outcomes = makeOutcomeColumns(compile(document), draws, true);
  const states = Array.from({ length: hands }, () => makeDrawState(compile(document), seed, "stratified"));
  const schedules = states.map(makeSchedule);
  chunksOf(draws)
    .toReversed()
    .forEach((chunk, turn) => {
      simulateChunk(states[turn % hands]!, schedules[turn % hands]!, chunk, outcomes);
    });
  return resultOf(simulationOf(compile(document), withDefaults({ draws, seed }), outcomes, true));
}

// Property, over made-up documents: tries and departures are compiled when a draw first needs them, so each hand has
// compiled others, in another order.
describe("who makes which chunk, and when", () => {
  test("never shows in the result", () => {
    fc.assert(
      fc.property(documentSeeds, fc.integer({ min: 1, max: 5 }), (seed, hands) => {
        const document = generatedDocument(seed);
        expect(dealtResult(document, hands, seed).resultDigest).toBe(
          simulate(document, { draws, seed }).resultDigest,
        );
      }),
      cases(50),
    );
  });
});
