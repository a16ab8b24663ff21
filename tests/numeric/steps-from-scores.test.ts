import fc from "fast-check";
import { expect, test } from "vitest";
import { stepsFromScores } from "../../src/numeric/steps-from-scores.ts";

const valuesAt = (thresholds: readonly number[], values: readonly number[], scores: readonly number[]) => {
  const out = new Float64Array(scores.length);
  const borders = Float64Array.from(thresholds);
  stepsFromScores(borders, Float64Array.from(values), Float64Array.from(scores), out, scores.length);
  return [...out];
};

test("stepsFromScores() gives a step's value up to and including its threshold", () => {
  expect(valuesAt([-1, 0.5], [10, 20, 30], [-2, -1, -0.9, 0.5, 0.6])).toEqual([10, 10, 20, 20, 30]);
  expect(valuesAt([], [7], [-9, 9])).toEqual([7, 7]);
  expect(valuesAt([-Infinity, Infinity], [1, 2, 3], [-6, 6])).toEqual([2, 2]);
});

// Property: few thresholds are counted and many are searched; both give the number of thresholds below the score.
test("stepsFromScores() counts the thresholds that a score exceeds, few or many", () => {
  const score = fc.double({ min: -7, max: 7, noNaN: true });
  fc.assert(
    fc.property(fc.array(score, { maxLength: 40 }), fc.array(score, { minLength: 1 }), (borders, scores) => {
      const thresholds = borders.sort((a, b) => a - b);
      const values = [...thresholds, 0].map((_, step) => step);
      expect(valuesAt(thresholds, values, scores)).toEqual(
        scores.map((at) => thresholds.filter((threshold) => at > threshold).length),
      );
    }),
  );
});
