import fc from "fast-check";
import { expect, test } from "vitest";
import { exp } from "../../src/numeric/exp.ts";
import { log } from "../../src/numeric/log.ts";
import { expectRelative, expectWithin } from "./expect-close.ts";
import fixture from "./fixtures/functions.json" with { type: "json" };

// Published: Python's decimal module at 60 digits (fixtures/functions.py).
test("log() is right within a unit in the last place", () => {
  for (const [x, expected] of fixture.log) expectRelative(log(x!), expected!, 2 ** -52, `log(${x})`);
});

test("log() has the limits of the logarithm", () => {
  expect(log(1)).toBe(0);
  expect(log(0)).toBe(-Infinity);
  expect(log(-0)).toBe(-Infinity);
  expect(log(Infinity)).toBe(Infinity);
  expect(log(-1)).toBeNaN();
  expect(log(NaN)).toBeNaN();
});

// Property.
test("log() undoes exp()", () => {
  fc.assert(
    fc.property(fc.double({ min: -700, max: 700, noNaN: true }), (x) => {
      expectWithin(log(exp(x)), x, 2 ** -51 * Math.max(1, Math.abs(x)));
    }),
  );
});
