import { expect, test } from "vitest";
import { covariance } from "../../src/numeric/covariance.ts";
import { meanOf } from "../../src/numeric/mean-of.ts";
import { normalQuantile } from "../../src/numeric/normal-quantile.ts";
import { triangularQuantile } from "../../src/numeric/triangular-quantile.ts";
import { drawScores, valuesAt } from "./draw.ts";
import { expectWithin } from "./expect-close.ts";

// Published: percentiles of the triangular distribution (10, 15, 30), computed with SciPy.
test("triangularQuantile() has the percentiles of (10, 15, 30)", () => {
  const quantile = triangularQuantile(10, 15, 30);
  expectWithin(quantile(normalQuantile(0.1)), 13.162278, 5e-7);
  expectWithin(quantile(normalQuantile(0.5)), 17.752551, 5e-7);
  expectWithin(quantile(normalQuantile(0.8)), 22.254033, 5e-7);
  expectWithin(quantile(normalQuantile(0.9)), 24.522774, 5e-7);
});

test("triangularQuantile() takes a mode at either end, and one value alone", () => {
  // Published: (x / width)^2 = p with the mode high, mirrored with the mode low.
  expectWithin(triangularQuantile(0, 10, 10)(normalQuantile(0.25)), 5, 1e-13);
  expectWithin(triangularQuantile(0, 0, 10)(normalQuantile(0.75)), 5, 1e-13);
  expect(triangularQuantile(7, 7, 7)(2)).toBe(7);
  expect(() => triangularQuantile(0, 11, 10)).toThrow(
    expect.objectContaining({ code: "values-not-ascending" }),
  );
});

// Statistical, fixed seed. Mean 18.333333, sd 4.249183, skewness .422404, excess kurtosis -.6 computed with SciPy.
// Tolerance: 5 standard errors; of the mean sd / sqrt n; of the variance sqrt((kurtosis - 1) / n) of it; of the skewness
// below that of a normal sample, sqrt(6 / n), since the tails are thinner; of the kurtosis likewise, sqrt(24 / n).
test("triangularQuantile() gives draws the moments of (10, 15, 30)", () => {
  const draws = 200_000;
  const values = valuesAt(triangularQuantile(10, 15, 30), drawScores("triangular", draws));
  const mean = meanOf(values, 0, draws);
  const variance = covariance(values, values, 0, draws);
  const standardised = (power: number) =>
    values.reduce((sum, value) => sum + ((value - mean) / Math.sqrt(variance)) ** power, 0) / draws;
  expectWithin(mean, 18.333333, (5 * 4.249183) / Math.sqrt(draws));
  expectWithin(variance / 4.249183 ** 2, 1, 5 * Math.sqrt(1.4 / draws));
  expectWithin(standardised(3), 0.422404, 5 * Math.sqrt(6 / draws));
  expectWithin(standardised(4), 2.4, 5 * Math.sqrt(24 / draws));
});
