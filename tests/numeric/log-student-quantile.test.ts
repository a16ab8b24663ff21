import { expect, test } from "vitest";
import { logStudentQuantile } from "../../src/numeric/log-student-quantile.ts";
import { expectRelative } from "./expect-close.ts";

const quantile = logStudentQuantile(7, 0.3, 4.5);

// Published: exp(7 + .3 t), t with 4.5 degrees of freedom at Phi(z), clipped to [.001, .999]; computed with mpmath 1.2.
test.each([
  [-9, 159.7527223954122],
  [-1, 782.7030911945191],
  [2, 2497.303388948087],
  [3.09, 7525.161299674961],
  [3.2, 7527.911049854591],
  [9, 7527.911049854591],
])("logStudentQuantile() at score %d is %d", (z, expected) => {
  expectRelative(quantile(z), expected, 1e-12);
});

test("logStudentQuantile() has its location as the logarithm of the median", () => {
  expectRelative(quantile(0), Math.exp(7), 1e-14);
  expect(logStudentQuantile(2, 0, 3)(1.5)).toBe(logStudentQuantile(2, 0, 3)(-1.5));
});
