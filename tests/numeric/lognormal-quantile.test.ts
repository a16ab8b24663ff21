import { expect, test } from "vitest";
import { lognormalFromMoments } from "../../src/numeric/lognormal-from-moments.ts";
import { lognormalFromPercentiles } from "../../src/numeric/lognormal-from-percentiles.ts";
import { lognormalQuantile } from "../../src/numeric/lognormal-quantile.ts";
import { normalQuantile } from "../../src/numeric/normal-quantile.ts";
import { expectRelative } from "./expect-close.ts";

test("lognormalFromPercentiles() gives back the percentiles it was given", () => {
  const { logMean, logSd } = lognormalFromPercentiles(120, 900);
  const quantile = lognormalQuantile(logMean, logSd);
  expectRelative(quantile(normalQuantile(0.1)), 120, 1e-14);
  expectRelative(quantile(normalQuantile(0.9)), 900, 1e-14);
  expectRelative(quantile(0), Math.sqrt(120 * 900), 1e-14);
});

// Published: mean e^(m + s^2/2) and variance (e^(s^2) - 1) times the square of the mean; small spreads keep their digits.
test.each([
  [1000, 250],
  [5, 20],
  [3e5, 1.5],
  [1, 1e-9],
])("lognormalFromMoments() of mean %d and sd %d has these moments", (mean, sd) => {
  const { logMean, logSd } = lognormalFromMoments(mean, sd);
  expectRelative(Math.exp(logMean + (logSd * logSd) / 2), mean, 1e-13);
  expectRelative(mean * Math.sqrt(Math.expm1(logSd * logSd)), sd, 1e-13);
});

test("lognormalFromMoments() without spread is a constant", () => {
  expect(lognormalFromMoments(40, 0).logSd).toBe(0);
});
