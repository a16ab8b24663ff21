import { expect, test } from "vitest";
import { exponentOf } from "./exponent-of.ts";

test("exponentOf() is the power of a power law, whatever its factor", () => {
  const points = [2, 3, 10, 50].map((x) => [x, 7 * x ** 1.5] as const);
  expect(exponentOf(points)).toBeCloseTo(1.5, 12);
});
