import { expect, test } from "vitest";
import { studentFromZ } from "../../src/numeric/student-from-z.ts";
import { studentQuantile } from "../../src/numeric/student-quantile.ts";
import { expectRelative, expectWithin } from "./expect-close.ts";
import fixture from "./fixtures/quantiles.json" with { type: "json" };

// Published: mpmath at 40 digits (fixtures/quantiles.py; SciPy's stats.t.ppf is right to about 1e-9 only).
test("studentFromZ() agrees for whole and broken degrees of freedom, tails included", () => {
  for (const [freedom, z, expected] of fixture.student as [number, number, number][]) {
    const tolerance =
      freedom > 1000
        ? freedom * 1e-15 * (1 + Math.abs(expected))
        : 1e-12 * Math.max(0.01, Math.abs(expected));
    expectWithin(studentFromZ(freedom)(z), expected, tolerance, `freedom ${freedom} at ${z}:`);
  }
});

// Published: 2.131449545559775 is the 97.5 % point with 15 degrees of freedom (computed with mpmath);
// with 1 the quantile is tan(pi (p - 1/2)), with 2 it is (2 p - 1) / sqrt(2 p (1 - p)).
test("studentQuantile() has the points that are known", () => {
  expectRelative(studentQuantile(0.975, 15), 2.131449545559775, 1e-14);
  for (const p of [0.001, 0.2, 0.6, 0.9, 0.999]) {
    expectRelative(studentQuantile(p, 1), Math.tan(Math.PI * (p - 0.5)), 1e-12);
    expectRelative(studentQuantile(p, 2), (2 * p - 1) / Math.sqrt(2 * p * (1 - p)), 1e-12);
  }
  expectWithin(studentQuantile(0.5, 7), 0, 1e-15);
});

test("studentQuantile() refuses freedoms and probabilities out of range", () => {
  for (const freedom of [0.5, 2e6, NaN]) {
    expect(() => studentQuantile(0.9, freedom)).toThrow(
      expect.objectContaining({ code: "freedom-out-of-range" }),
    );
  }
  expect(() => studentQuantile(1.2, 5)).toThrow(
    expect.objectContaining({ code: "probability-out-of-range" }),
  );
});
