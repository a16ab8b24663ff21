import fc from "fast-check";
import { expect, test } from "vitest";
import { jackknifeError } from "../../src/numeric/jackknife-error.ts";
import { meanOf } from "../../src/numeric/mean-of.ts";
import { sdOf } from "../../src/numeric/sd-of.ts";
import { expectRelative, expectWithin } from "./expect-close.ts";

// Property: of a mean it is what the groups' scatter gives.
test("jackknifeError() of a mean is the sd of the groups' means over the root of their number", () => {
  const means = fc.array(fc.double({ min: -1e3, max: 1e3, noNaN: true }), { minLength: 2, maxLength: 40 });
  fc.assert(
    fc.property(means, (values) => {
      const groups = values.length;
      const mean = meanOf(Float64Array.from(values), 0, groups);
      const leftOut = Float64Array.from(values, (value) => (groups * mean - value) / (groups - 1));
      const expected = sdOf(Float64Array.from(values), 0, groups) / Math.sqrt(groups);
      expectWithin(jackknifeError(leftOut), expected, 1e-9 * (1 + expected));
    }),
  );
});

test("jackknifeError() of a figure that is the same whatever is left out is 0", () => {
  expect(jackknifeError(Float64Array.of(0.1, 0.1, 0.1))).toBe(0);
});

test("jackknifeError() keeps its digits beside a large figure", () => {
  // By hand: two groups, 1 apart: sqrt(1 / 2 x 1 / 2).
  expectRelative(jackknifeError(Float64Array.of(1e9, 1e9 + 1)), 0.5, 1e-12);
});
