import fc from "fast-check";
import { describe, expect, test } from "vitest";
import type { EstimateDocument } from "../../src/domain/estimate-document.ts";
import { withDefaults } from "../../src/domain/simulation-options.ts";
import { compile } from "../../src/simulation/compile.ts";
import { makeHand } from "../../src/simulation/hand.ts";
import { makeOutcomeColumns } from "../../src/simulation/outcome-columns.ts";
import { chunksOf, operationDrawsOf, replicateStarts } from "../../src/simulation/replicates.ts";
import { resultOf } from "../../src/simulation/result.ts";
import { simulate } from "../../src/simulation/simulate.ts";
import { simulateChunk } from "../../src/simulation/simulate-chunk.ts";
import { simulationOf } from "../../src/simulation/simulation.ts";
import { generatedDocument } from "./plain/generated-document.ts";
import { cases, documentSeeds } from "./properties.ts";

/** Several chunks a replicate would need more than 16,384 draws; one each will do to deal them out. */
const draws = 320;

/** The result with the chunks taken in reverse, dealt out among so many hands that share nothing but where they write. */
function dealtResult(document: EstimateDocument, hands: number, seed: number) {
  const asked = withDefaults({ draws, seed });
  const starts = replicateStarts(draws);
  const chunks = chunksOf(starts);
  const program = compile(document);
  const outcomes = makeOutcomeColumns(program, starts, operationDrawsOf(chunks), true);
  const dealt = Array.from({ length: hands }, () => makeHand(document, asked, true));
  chunks.toReversed().forEach((chunk, turn) => {
    const { state, schedule } = dealt[turn % hands]!;
    simulateChunk(state, schedule, chunk, outcomes);
  });
  const stopped = "all draws asked for were made";
  return resultOf(simulationOf(program, asked, starts, outcomes, true, stopped));
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
