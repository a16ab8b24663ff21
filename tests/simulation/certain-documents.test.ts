import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { simulate } from "../../src/simulation/simulate.ts";
import { generatedDocument } from "./plain/generated-document.ts";
import { plainDraw } from "./plain/plain-draw.ts";
import type { Source } from "./plain/plain-types.ts";
import { cases, documentSeeds } from "./properties.ts";
import { measuredIn, objectsIn } from "./walk-result.ts";
import { withoutChance } from "./without-chance.ts";

/** For documents of constants only: every score will do, and there is nothing to look up. */
const noChance: Source = {
  score: () => 0,
  quantile: (uncertain) => {
    if (typeof uncertain === "number") return uncertain;
    throw new Error(`not a constant: ${uncertain.kind}`);
  },
};

// Property. The sum is that of the literal walk of one draw; standard errors are exactly 0, not nearly.
describe("a document that leaves nothing to chance", () => {
  const everyCertain = (check: (seed: number, sampling: "stratified" | "independent") => void) =>
    fc.assert(
      fc.property(documentSeeds, fc.constantFrom("stratified", "independent"), (seed, sampling) =>
        check(seed, sampling),
      ),
      cases(100),
    );

  test("costs exactly its sum, in every percentile", () => {
    everyCertain((seed, sampling) => {
      const document = withoutChance(generatedDocument(seed));
      const { restoration, weeks, allIn } = simulate(document, { draws: 33, sampling });
      const plain = plainDraw(document, noChance);
      const close = (value: number, expected: number) =>
        expect(Math.abs(value - expected)).toBeLessThan(1e-9 * (1 + Math.abs(expected)));
      close(restoration.cash.mean.value, plain.restorationCash);
      close(allIn.mean.value, plain.allIn);
      close(weeks.mean.value, plain.weeks);
    });
  });

  test("has standard error 0 everywhere, no spread, and every percentile equal to the mean", () => {
    everyCertain((seed, sampling) => {
      const result = simulate(withoutChance(generatedDocument(seed)), { draws: 33, sampling });
      expect(measuredIn(result).filter(({ value }) => value.standardError !== 0)).toEqual([]);
      const ranges = objectsIn(result, "mean", "p10", "p50", "p80", "p90");
      const spread = ranges.filter(({ value }) =>
        [value.p10, value.p50, value.p80, value.p90].some(
          (percentile) => percentile.value !== value.mean.value,
        ),
      );
      expect(spread).toEqual([]);
      expect(objectsIn(result, "sd").filter(({ value }) => value.sd.value !== 0)).toEqual([]);
    });
  });
});
