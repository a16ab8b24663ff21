import { describe, expect, test } from "vitest";
import { betaPertQuantile } from "../../src/numeric/beta-pert-quantile.ts";
import { exponentialQuantile } from "../../src/numeric/exponential-quantile.ts";
import { lognormalQuantile } from "../../src/numeric/lognormal-quantile.ts";
import { normalScaled } from "../../src/numeric/normal-scaled.ts";
import { lastScore, quantileTable } from "../../src/numeric/quantile-table.ts";
import { quantilesFromZ } from "../../src/numeric/quantiles-from-z.ts";
import { triangularQuantile } from "../../src/numeric/triangular-quantile.ts";
import { uniformQuantile } from "../../src/numeric/uniform-quantile.ts";
import { expectWithin } from "./expect-close.ts";
import { pertCases } from "./pert-cases.ts";
import { quantileCases } from "./quantile-cases.ts";

function lookUp(table: Float64Array, scores: Float64Array): Float64Array {
  const out = new Float64Array(scores.length);
  quantilesFromZ(table, scores, out, scores.length);
  return out;
}

/** 40 a cell, the ends of the table included. */
const scores = Float64Array.from(
  { length: 512 * 40 + 1 },
  (_, place) => (place / (512 * 40)) * 13 - lastScore,
);

/** Largest error over all scores, as a share of `scale` of the true value. */
function worstError(quantile: (z: number) => number, scale: (value: number) => number): number {
  const found = lookUp(quantileTable(quantile), scores);
  return scores.reduce((worst, z, place) => {
    const value = quantile(z);
    return Math.max(worst, Math.abs(found[place]! - value) / scale(value));
  }, 0);
}

test("quantileTable() holds the quantiles at its knots, the median in the middle", () => {
  const table = quantileTable((z) => 3 * z);
  expect(table).toHaveLength(513);
  expect([table[0], table[256], table[512]]).toEqual([-3 * lastScore, 0, 3 * lastScore]);
  expect(quantileTable((z) => z, 5)).toEqual(Float64Array.of(-6.5, -3.25, 0, 3.25, 6.5));
});

test("quantilesFromZ() stays at the ends beyond them, and may write where it reads", () => {
  const z = Float64Array.of(-40, -6.5, 0, 6.5, 40);
  quantilesFromZ(
    quantileTable((score) => score),
    z,
    z,
    5,
  );
  expect(z).toEqual(Float64Array.of(-6.5, -6.5, 0, 6.5, 6.5));
});

// Published: the error of linear interpolation is at most h^2 / 8 times the greatest second derivative: for a uniform
// phi(1) = .24197 of the range, for a lognormal s^2 of the value, at h = 13 / 512. The others are measured.
describe("a table of 512 cells errs", () => {
  const cell = 13 / 512;
  test("by 2e-5 of the range for a uniform", () => {
    const worst = worstError(uniformQuantile(0, 1), () => 1);
    expect(worst).toBeLessThan((1.0001 * 0.24197 * cell * cell) / 8);
    expect(worst).toBeGreaterThan((0.99 * 0.24197 * cell * cell) / 8);
  });

  test("by 1.9e-5 of the range for a PERT of whatever weight and mode", () => {
    for (const weight of [0.1, 1, 4, 20, 100]) {
      for (const mode of [0, 0.05, 0.3, 0.5, 1]) {
        expect(worstError(betaPertQuantile(0, mode, 1, weight), () => 1)).toBeLessThan(1.9e-5);
      }
    }
  });

  test("by 1.4e-5 of the range for a triangular", () => {
    for (const mode of [0, 0.3, 1]) {
      expect(worstError(triangularQuantile(0, mode, 1), () => 1)).toBeLessThan(1.4e-5);
    }
  });

  test("by 8.1e-5 s^2 of the value for a lognormal", () => {
    for (const sd of [0.25, 0.5, 1]) {
      expect(worstError(lognormalQuantile(3, sd), (value) => value)).toBeLessThan(8.1e-5 * sd * sd);
    }
  });

  test("by 8e-5 of the mean for an exponential, and by nothing for a normal", () => {
    expect(worstError(exponentialQuantile(1), () => 1)).toBeLessThan(8e-5);
    expect(worstError(normalScaled(5, 2), () => 1)).toBeLessThan(1e-14);
  });
});

// Published: SciPy's beta quantiles (fixtures/quantiles.py).
test("quantilesFromZ() finds SciPy's PERT quantiles within the error of the table", () => {
  for (const [low, mode, high, weight, z, expected] of pertCases) {
    if (Math.abs(z) > lastScore) continue;
    const [found] = lookUp(quantileTable(betaPertQuantile(low, mode, high, weight)), Float64Array.of(z));
    expectWithin(
      found!,
      expected,
      1.9e-5 * (high - low),
      `pert(${low}, ${mode}, ${high}, ${weight}) at ${z}:`,
    );
  }
});

// Property.
test.each(quantileCases)("quantilesFromZ() of a %s never falls and is finite", (_, quantile) => {
  const found = lookUp(quantileTable(quantile), scores);
  expect(
    found.every((value, place) => Number.isFinite(value) && (place === 0 || value >= found[place - 1]!)),
  ).toBe(true);
});
