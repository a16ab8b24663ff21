import fc from "fast-check";
import { expect, test } from "vitest";
import { quantileEstimates } from "../../src/numeric/quantile-estimates.ts";
import { quantilesOf } from "../../src/numeric/quantiles-of.ts";
import { expectWithin } from "./expect-close.ts";
import { drawScores } from "./draw.ts";

const probabilities = [0, 0.05, 0.1, 0.5, 0.8, 0.95, 1];
const studentPoint = 2.131;
const replicates = (count: number, of = 16) =>
  Int32Array.from({ length: of + 1 }, (_, at) => Math.floor((at * count) / of));

// Property: any values, any number of them; bins change how a quantile is found, never what it is.
test("quantileEstimates() gives exactly the quantiles that sorting gives", () => {
  const value = fc.oneof(
    fc.double({ noNaN: true, noDefaultInfinity: true, min: -1e300, max: 1e300 }),
    fc.double({ noNaN: true, min: 0, max: 1 }),
    fc.integer({ min: -3, max: 3 }),
  );
  const column = fc.array(value, { minLength: 32, maxLength: 900, size: "max" });
  fc.assert(
    fc.property(column, (list) => {
      const values = Float64Array.from(list, (each) => each + 0);
      const { values: found } = quantileEstimates(
        values,
        replicates(list.length),
        probabilities,
        studentPoint,
      );
      expect([...found]).toEqual(quantilesOf(values, 0, list.length, probabilities));
    }),
  );
});

test("quantileEstimates() does so for so many values that bins are narrower", () => {
  const values = drawScores("cubes", 70_000).map((score) => score * score * score);
  const { values: found } = quantileEstimates(values, replicates(70_000), probabilities, studentPoint);
  expect([...found]).toEqual(quantilesOf(values, 0, 70_000, probabilities));
});

// Published: the large-sample standard error of a quantile, sqrt(p (1 - p) / n) / f(q) (Cox & Hinkley 1974, appendix 2; from
// memory). Tolerance: the error comes from 16 replicates, so its own relative error is 1 / sqrt(30) = .18; the mean of 50
// has .026, five of which are allowed, and 2 % for the finite sample.
test("quantileEstimates() gives independent normal draws the textbook error", () => {
  const count = 4_000;
  const at = [0.1, 0.5, 0.8];
  const density = [0.1754983, 0.3989423, 0.2799619];
  const sums = new Float64Array(3);
  for (let repeat = 0; repeat < 50; repeat++) {
    const scores = drawScores(`normal ${repeat}`, count);
    quantileEstimates(scores, replicates(count), at, studentPoint).errors.forEach(
      (error, i) => (sums[i]! += error),
    );
  }
  at.forEach((probability, i) => {
    const textbook = Math.sqrt((probability * (1 - probability)) / count) / density[i]!;
    expectWithin(sums[i]! / 50 / textbook, 1, 5 * 0.026 + 0.02);
  });
});

test("quantileEstimates() has no error where every value is the same, and none within a group of equal values", () => {
  const same = new Float64Array(64).fill(5);
  expect([...quantileEstimates(same, replicates(64), [0.1, 0.9], studentPoint).errors]).toEqual([0, 0]);
  const grouped = Float64Array.from({ length: 640 }, (_, draw) => (draw % 4 === 0 ? 9 : 1));
  const { values, errors } = quantileEstimates(grouped, replicates(640), [0.5, 0.9], studentPoint);
  expect([...values, ...errors]).toEqual([1, 9, 0, 0]);
});
