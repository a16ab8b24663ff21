import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { simulate } from "../../src/simulation/simulate.ts";
import type { Measured } from "../../src/domain/estimate-result.ts";
import { generatedDocument } from "./plain/generated-document.ts";
import { cases, documentSeeds } from "./properties.ts";

/**
 * Statistical and property: two samplings of one document differ by no more than chance. A difference over its joint
 * standard error follows Student's t with 15 to 30 degrees of freedom, beyond 6 about once in 40,000.
 */
const joint = 6;

describe("stratified and independent sampling", () => {
  test("agree on means, medians and chances within their joint standard errors", () => {
    fc.assert(
      fc.property(documentSeeds, (seed) => {
        const document = generatedDocument(seed, 6);
        const [one, other] = (["stratified", "independent"] as const).map((sampling) => {
          const { restoration, weeks, ownHours, allIn, value } = simulate(document, {
            draws: 3_200,
            sampling,
          });
          return {
            cash: restoration.cash.mean,
            weeks: weeks.mean,
            ownHours: ownHours.mean,
            allIn: allIn.mean,
            proceeds: value?.proceeds.mean,
          };
        });
        for (const [name, figure] of Object.entries(one!) as [keyof typeof one, Measured | undefined][]) {
          if (figure === undefined) continue;
          const against: Measured = other![name]!;
          const standardError = Math.hypot(figure.standardError, against.standardError);
          const rounding = 1e-9 * (1 + Math.abs(figure.value));
          expect(Math.abs(figure.value - against.value), name).toBeLessThanOrEqual(
            joint * standardError + rounding,
          );
        }
      }),
      cases(40),
    );
  });
});
