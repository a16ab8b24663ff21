import fc from "fast-check";
import { expect, test } from "vitest";
import { betaPertQuantile } from "../../src/numeric/beta-pert-quantile.ts";
import { covariance } from "../../src/numeric/covariance.ts";
import { meanOf } from "../../src/numeric/mean-of.ts";
import { normalQuantile } from "../../src/numeric/normal-quantile.ts";
import { drawScores, valuesAt } from "./draw.ts";
import { expectWithin } from "./expect-close.ts";
import { pertCases } from "./pert-cases.ts";

// Published: percentiles of PERT(10, 15, 30), weight 4, computed with SciPy.
test("betaPertQuantile() has the percentiles of (10, 15, 30)", () => {
  const quantile = betaPertQuantile(10, 15, 30, 4);
  expectWithin(quantile(normalQuantile(0.1)), 12.244699, 5e-7);
  expectWithin(quantile(normalQuantile(0.5)), 16.276203, 5e-7);
  expectWithin(quantile(normalQuantile(0.8)), 19.803847, 5e-7);
  expectWithin(quantile(normalQuantile(0.9)), 21.677807, 5e-7);
});

// Published: SciPy's beta quantiles (fixtures/quantiles.py) for weights .01 to 100, modes at both ends, scores to +-8.
test("betaPertQuantile() agrees with SciPy for every shape, tails included", () => {
  for (const [low, mode, high, weight, z, expected] of pertCases) {
    const where = `pert(${low}, ${mode}, ${high}, ${weight}) at ${z}:`;
    expectWithin(betaPertQuantile(low, mode, high, weight)(z), expected, 1e-12 * (high - low), where);
    // Near an end that is 0 the distance from it is right, not just the value.
    if (low === 0)
      expectWithin(betaPertQuantile(low, mode, high, weight)(z), expected, 1e-12 * expected, where);
  }
});

// Property: the mirrored shape has mirrored quantiles.
test("betaPertQuantile() mirrors with its mode", () => {
  const share = fc.double({ min: 0, max: 1, noNaN: true });
  const weight = fc.double({ min: 0.01, max: 100, noNaN: true });
  fc.assert(
    fc.property(share, weight, fc.double({ min: -9, max: 9, noNaN: true }), (mode, of, z) => {
      const mirrored = 1 - betaPertQuantile(0, 1 - mode, 1, of)(-z);
      expectWithin(betaPertQuantile(0, mode, 1, of)(z), mirrored, 1e-12);
    }),
  );
});

// Property: no more of what one half of the solution says at the median than of the other.
test("betaPertQuantile() joins its halves at the median", () => {
  const share = fc.double({ min: 0, max: 1, noNaN: true });
  fc.assert(
    fc.property(share, fc.double({ min: 0.01, max: 100, noNaN: true }), (mode, weight) => {
      const quantile = betaPertQuantile(0, mode, 1, weight);
      expectWithin(quantile(-Number.MIN_VALUE), quantile(0), 1e-13);
    }),
  );
});

test("betaPertQuantile() of one value is a constant; values out of order and weights out of range are errors", () => {
  expect(betaPertQuantile(5, 5, 5, 4)(1.2)).toBe(5);
  expect(() => betaPertQuantile(5, 4, 9, 4)).toThrow(
    expect.objectContaining({ code: "values-not-ascending" }),
  );
  expect(() => betaPertQuantile(5, 6, Infinity, 4)).toThrow(
    expect.objectContaining({ code: "values-not-ascending" }),
  );
  for (const weight of [0, -1, 101, NaN]) {
    expect(() => betaPertQuantile(5, 6, 9, weight)).toThrow(
      expect.objectContaining({ code: "weight-out-of-range" }),
    );
  }
});

// Statistical, fixed seed. Mean (a + w m + b) / (w + 2) = 16.666667 and variance (mean - a)(b - mean) / (w + 3),
// sd 3.563483, computed with SciPy. Tolerance: 5 standard errors; the excess kurtosis of this beta is below 0, so a normal
// sample's sqrt(2 / n) bounds the variance's. The table's own bias is 5e-6 of the mean.
test("betaPertQuantile() gives draws the moments of (10, 15, 30)", () => {
  const draws = 200_000;
  const values = valuesAt(betaPertQuantile(10, 15, 30, 4), drawScores("pert", draws));
  expectWithin(meanOf(values, 0, draws), 16.666667, (5 * 3.563483) / Math.sqrt(draws));
  expectWithin(covariance(values, values, 0, draws) / 3.563483 ** 2, 1, 5 * Math.sqrt(2 / draws));
});
