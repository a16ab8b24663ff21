import fc from "fast-check";
import { expect, test } from "vitest";
import { exp } from "../../src/numeric/exp.ts";
import { expectRelative } from "./expect-close.ts";
import fixture from "./fixtures/functions.json" with { type: "json" };

/** One unit in the last place, relative: between this and half of it. */
const ulp = 2 ** -52;

// Published: Python's decimal module at 60 digits (fixtures/functions.py).
test("exp() is right within a unit in the last place, subnormal results within one of theirs", () => {
  for (const [x, expected] of fixture.exp) {
    if (expected! < 2.3e-308) expect(Math.abs(exp(x!) - expected!)).toBeLessThanOrEqual(5e-324);
    else expectRelative(exp(x!), expected!, ulp, `exp(${x})`);
  }
});

test("exp() has the limits of the exponential", () => {
  expect(exp(0)).toBe(1);
  expect(exp(-Infinity)).toBe(0);
  expect(exp(Infinity)).toBe(Infinity);
  expect(exp(710)).toBe(Infinity);
  expect(exp(-746)).toBe(0);
  expect(exp(-745.13)).toBe(5e-324);
  expect(exp(NaN)).toBeNaN();
});

// Property.
test("exp() never falls, and turns sums into products", () => {
  const number = fc.double({ min: -300, max: 300, noNaN: true });
  fc.assert(
    fc.property(number, number, (a, b) => {
      expect(exp(Math.min(a, b)) <= exp(Math.max(a, b))).toBe(true);
      // The rounding of a + b is magnified by the slope of exp.
      expectRelative(exp(a + b), exp(a) * exp(b), 4 * ulp * (1 + Math.abs(a) + Math.abs(b)));
    }),
  );
});
