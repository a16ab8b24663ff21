import { expect, test } from "vitest";
import { normalQuantile } from "../../src/numeric/normal-quantile.ts";
import { uniformQuantile } from "../../src/numeric/uniform-quantile.ts";
import { expectWithin } from "./expect-close.ts";

// Published: the quantile of a uniform distribution is low + p (high - low).
test("uniformQuantile() is as far along as the probability says", () => {
  const quantile = uniformQuantile(-10, 40);
  for (const p of [1e-9, 0.1, 0.5, 0.73, 0.999])
    expectWithin(quantile(normalQuantile(p)), -10 + 50 * p, 1e-13);
});

test("uniformQuantile() of equal ends is a constant, of crossed ends an error", () => {
  expect(uniformQuantile(3, 3)(1.7)).toBe(3);
  expect(() => uniformQuantile(4, 3)).toThrow(expect.objectContaining({ code: "values-not-ascending" }));
});
