import { expect, test } from "vitest";
import { log1p } from "../../src/numeric/log1p.ts";
import { expectRelative } from "./expect-close.ts";
import fixture from "./fixtures/functions.json" with { type: "json" };

// Published: mpmath at 50 digits (fixtures/functions.py).
test("log1p() keeps its precision for small and large arguments", () => {
  for (const [x, expected] of fixture.log1p) expectRelative(log1p(x!), expected!, 1e-15, `log1p(${x})`);
});

test("log1p() has the limits of log(1 + x)", () => {
  expect(log1p(0)).toBe(0);
  expect(log1p(-1)).toBe(-Infinity);
  expect(log1p(-2)).toBeNaN();
  expect(log1p(Infinity)).toBe(Infinity);
  expect(log1p(NaN)).toBeNaN();
});
