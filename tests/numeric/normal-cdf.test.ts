import fc from "fast-check";
import { expect, test } from "vitest";
import { normalCdf } from "../../src/numeric/normal-cdf.ts";
import { expectRelative, expectWithin } from "./expect-close.ts";
import fixture from "./fixtures/functions.json" with { type: "json" };

// Published: mpmath at 50 digits, checked against SciPy's special.ndtr (fixtures/functions.py).
test("normalCdf() is accurate relative to itself far into the lower tail", () => {
  for (const [z, expected] of fixture.normalCdf) {
    expectRelative(normalCdf(z!), expected!, z! < -9 ? 3e-14 : 2e-15, `normalCdf(${z})`);
  }
});

test("normalCdf() has the limits of a distribution", () => {
  expect(normalCdf(0)).toBe(0.5);
  expect(normalCdf(-Infinity)).toBe(0);
  expect(normalCdf(Infinity)).toBe(1);
  expect(normalCdf(-39)).toBe(0);
  expect(normalCdf(NaN)).toBeNaN();
});

// Property: approximations meet at .66 and 5.66, where a step backwards would show first.
test("normalCdf() rises, and mirrors about 0", () => {
  const score = fc.oneof(
    fc.double({ min: -38, max: 38, noNaN: true }),
    fc.double({ min: 0.6629, max: 0.66292, noNaN: true }),
    fc.double({ min: -5.6569, max: -5.6568, noNaN: true }),
  );
  fc.assert(
    fc.property(score, fc.double({ min: 1e-6, max: 1, noNaN: true }), (z, further) => {
      expect(normalCdf(z + further) >= normalCdf(z)).toBe(true);
      expectWithin(normalCdf(z) + normalCdf(-z), 1, 2 ** -52);
    }),
    { numRuns: 1000 },
  );
});
