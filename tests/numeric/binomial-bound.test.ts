import { expect, test } from "vitest";
import { binomialBound } from "../../src/numeric/binomial-bound.ts";
import { expectRelative } from "./expect-close.ts";

// Published: Wilks: 59 draws, and no fewer, show with 95 % confidence that less than 5 % lies beyond.
test("binomialBound() needs 59 draws for 95/95", () => {
  expect(binomialBound(59, 0.95)).toBeLessThan(0.05);
  expect(binomialBound(58, 0.95)).toBeGreaterThan(0.05);
});

// Published: one draw that did not happen leaves 1 - (1 - confidence); many leave -log(1 - confidence) / n ("rule of three").
test("binomialBound() is the confidence itself for one draw and three in n for many", () => {
  expectRelative(binomialBound(1, 0.95), 0.95, 1e-15);
  expectRelative(binomialBound(1e6, 0.95), 2.995732273553991 / 1e6, 2e-6);
});
