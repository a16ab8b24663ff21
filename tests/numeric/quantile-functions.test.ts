import fc from "fast-check";
import { describe, test } from "vitest";
import { quantileCases } from "./quantile-cases.ts";

// Property: what every quantile function must be, whatever its kind.
describe.each(quantileCases)("the quantile function of a %s distribution", (_, quantile) => {
  test("is finite at every score that can be drawn, and far beyond", () => {
    fc.assert(
      fc.property(fc.double({ min: -30, max: 30, noNaN: true }), (z) => Number.isFinite(quantile(z))),
    );
  });

  test("never falls", () => {
    const score = fc.double({ min: -9, max: 9, noNaN: true });
    fc.assert(
      fc.property(score, fc.double({ min: 1e-6, max: 3, noNaN: true }), (z, further) => {
        return quantile(z + further) >= quantile(z);
      }),
      { numRuns: 500 },
    );
  });
});
