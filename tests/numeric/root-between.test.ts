import fc from "fast-check";
import { expect, test } from "vitest";
import { rootBetween } from "../../src/numeric/root-between.ts";
import { expectWithin } from "./expect-close.ts";

// Property: roots put in by hand, in slopes that differ by orders of magnitude on the two sides.
test("rootBetween() finds the root of a falling function", () => {
  fc.assert(
    fc.property(
      fc.double({ min: 0, max: 1, noNaN: true }),
      fc.double({ min: 1, max: 1000, noNaN: true }),
      (root, steepness) => {
        const f = (x: number) => (x < root ? (root - x) * steepness : (root - x) ** 3 + (root - x));
        expectWithin(rootBetween(f, 0, 1, 1e-14), root, 2e-14);
      },
    ),
  );
});

test("rootBetween() needs few steps", () => {
  let calls = 0;
  const root = rootBetween(
    (x) => {
      calls += 1;
      return Math.cos(x) - x ** 3;
    },
    0,
    1,
    1e-15,
  );
  // Published: cos x = x^3 at .865474033101614, computed with mpmath.
  expectWithin(root, 0.865474033101614, 1e-15);
  expect(calls).toBeLessThan(15);
});
