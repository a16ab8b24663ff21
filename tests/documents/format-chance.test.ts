import { describe, expect, test } from "vitest";
import { formatChance, percent } from "../../src/documents/format-chance.ts";

describe("formatChance()", () => {
  test.each([
    [0.7234, 0.004, "72 %"],
    [0.7234, 0.03, "70 %"],
    [0.5, 0.001, "50 %"],
    [0.0004, 0.0001, "less than 1 %"],
    [0.9998, 0.0001, "more than 99 %"],
    [0.9951, 0.001, "more than 99 %"],
    [0.02, 0.04, "less than 5 %"],
  ])("writes %d with a standard error of %d as %s", (value, standardError, written) => {
    expect(formatChance({ value, standardError }, 10_000)).toBe(written);
  });

  test("shows a certain 0 or 1 as what it is", () => {
    expect(formatChance({ value: 0, standardError: 0 }, 10_000)).toBe("0 %");
    expect(formatChance({ value: 1, standardError: 0 }, 10_000)).toBe("100 %");
    expect(formatChance({ value: 0.125, standardError: 0 }, 10_000)).toBe("12.5 %");
  });

  // Source: rule of three, 3 / n (check by hand: 1 - .05^(1/10000) is 1 in 3,338; 1 in 3,000 claims less).
  test.each([
    [0, 10_000, "less than 1 in 3,000"],
    [1, 10_000, "more than 2,999 in 3,000"],
    [0, 1_000_000, "less than 1 in 300,000"],
    [0, 64, "less than 1 in 20"],
    [0, 32, "less than 1 in 10"],
  ])("shows a %d that is not certain, of %d draws, by its bound", (value, draws, written) => {
    expect(formatChance({ value, standardError: 1e-4 }, draws)).toBe(written);
  });
});

test("percent() keeps one decimal where there is one", () => {
  expect([0.2, 0.175, 1].map(percent)).toEqual(["20 %", "17.5 %", "100 %"]);
});
