import { betaPertQuantile } from "../../src/numeric/beta-pert-quantile.ts";
import { exponentialQuantile } from "../../src/numeric/exponential-quantile.ts";
import { logStudentQuantile } from "../../src/numeric/log-student-quantile.ts";
import { lognormalQuantile } from "../../src/numeric/lognormal-quantile.ts";
import { normalScaled } from "../../src/numeric/normal-scaled.ts";
import { splitLognormalQuantile } from "../../src/numeric/split-lognormal-quantile.ts";
import { triangularQuantile } from "../../src/numeric/triangular-quantile.ts";
import { uniformQuantile } from "../../src/numeric/uniform-quantile.ts";

/** One quantile function of each continuous kind. */
export const quantileCases: readonly (readonly [string, (z: number) => number])[] = [
  ["uniform", uniformQuantile(-2, 5)],
  ["triangular", triangularQuantile(10, 15, 30)],
  ["triangular with its mode low", triangularQuantile(10, 10, 30)],
  ["pert", betaPertQuantile(10, 15, 30, 4)],
  ["pert with its mode high", betaPertQuantile(10, 30, 30, 4)],
  ["pert of great weight", betaPertQuantile(0, 0.05, 1, 100)],
  ["percentiles", splitLognormalQuantile(50, 100, 300, 20)],
  ["lognormal", lognormalQuantile(3, 0.8)],
  ["normal", normalScaled(100, 15)],
  ["exponential", exponentialQuantile(100)],
  ["log-student", logStudentQuantile(7, 0.3, 4.5)],
];
