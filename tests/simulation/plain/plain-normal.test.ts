import { expect, test } from "vitest";
import { lowerTail, upperTail } from "./plain-normal.ts";

// Published: scipy.stats.norm.sf, SciPy 1.17.1: 0.15865525393145707, 0.024997895148220435, 0.0013498980316300933,
// 9.865876450376946e-10, and by symmetry.
test("upperTail() agrees with SciPy in the middle and far out", () => {
  const published = [
    [0, 0.5],
    [1, 0.15865525393145707],
    [1.96, 0.024997895148220435],
    [3, 0.0013498980316300933],
    [6, 9.865876450376946e-10],
  ] as const;
  for (const [z, tail] of published) {
    expect(upperTail(z) / tail).toBeCloseTo(1, 11);
    expect(lowerTail(-z) / tail).toBeCloseTo(1, 11);
    expect(upperTail(-z)).toBeCloseTo(1 - tail, 14);
  }
});
