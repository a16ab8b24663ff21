import { expect, test } from "vitest";
import { quantileSorted } from "../../src/numeric/quantile-sorted.ts";

const values = Float64Array.of(1, 2, 4, 7, 8, 9, 12, 15, 20, 30);

// Published: Hyndman & Fan 1996, definition 7, computed with R: P80 16, P90 21.
test("quantileSorted() is definition 7", () => {
  expect(quantileSorted(values, 0.8)).toBeCloseTo(16, 12);
  expect(quantileSorted(values, 0.9)).toBeCloseTo(21, 12);
  expect(quantileSorted(values, 0.5)).toBe(8.5);
});

test("quantileSorted() ends at the ends", () => {
  expect(quantileSorted(values, 0)).toBe(1);
  expect(quantileSorted(values, 1)).toBe(30);
  expect(quantileSorted(Float64Array.of(3), 0.4)).toBe(3);
});
