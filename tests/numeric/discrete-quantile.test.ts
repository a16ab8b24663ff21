import { expect, test } from "vitest";
import { discreteQuantile } from "../../src/numeric/discrete-quantile.ts";
import { normalQuantile } from "../../src/numeric/normal-quantile.ts";
import { drawScores, shareError, shareOf } from "./draw.ts";
import { expectWithin } from "./expect-close.ts";

test("discreteQuantile() is the least value whose cumulative probability reaches the score's", () => {
  const quantile = discreteQuantile([10, 20, 30], [0.2, 0.5, 0.3]);
  expect(quantile(-6)).toBe(10);
  expect(quantile(normalQuantile(0.2))).toBe(10);
  expect(quantile(normalQuantile(0.2) + 1e-12)).toBe(20);
  expect(quantile(normalQuantile(0.7))).toBe(20);
  expect(quantile(normalQuantile(0.7) + 1e-12)).toBe(30);
  expect(quantile(6)).toBe(30);
});

test("discreteQuantile() never draws what has no probability, and gives the rest to the last", () => {
  const quantile = discreteQuantile([1, 2, 3, 4], [0, 0.1 + 0.2, 0, 0.7]);
  const values = Array.from({ length: 1301 }, (_, place) => quantile(place / 100 - 6.5));
  expect(new Set(values)).toEqual(new Set([2, 4]));
  expect(discreteQuantile([5], [1])(9)).toBe(5);
});

test("discreteQuantile() refuses lists that do not match", () => {
  for (const probabilities of [[], [0.5, 0.5]]) {
    expect(() => discreteQuantile(probabilities.length === 0 ? [] : [1], probabilities)).toThrow(
      expect.objectContaining({ code: "probabilities-mismatched" }),
    );
  }
});

// Statistical, fixed seed. Tolerance: 5 sqrt(p (1 - p) / n).
test("discreteQuantile() draws each value as often as its probability", () => {
  const quantile = discreteQuantile([1, 2, 3, 4], [0.05, 0.5, 0.25, 0.2]);
  const values = drawScores("discrete", 100_000).map(quantile);
  for (const [value, p] of [
    [1, 0.05],
    [2, 0.5],
    [3, 0.25],
    [4, 0.2],
  ] as const) {
    expectWithin(
      shareOf(values, (drawn) => drawn === value),
      p,
      5 * shareError(p, values.length),
    );
  }
});
