import fc from "fast-check";
import { expect, test } from "vitest";
import { quantilesOf } from "../../src/numeric/quantiles-of.ts";
import { drawScores } from "./draw.ts";

const probabilities = [0, 0.05, 0.1, 0.25, 0.5, 0.75, 0.8, 0.9, 0.95, 1];

/** Definition 7 as Hyndman & Fan write it. */
function quantileSorted(sorted: Float64Array, probability: number): number {
  const place = (sorted.length - 1) * probability;
  const rank = Math.floor(place);
  const low = sorted[rank]!;
  return low + (sorted[Math.min(sorted.length - 1, rank + 1)]! - low) * (place - rank);
}

/** Adding 0 turns -0 into 0, which sorting tells apart and counting does not. */
const bySorting = (values: Float64Array, wanted: readonly number[]) => {
  const sorted = values.map((value) => value + 0).sort();
  return wanted.map((probability) => quantileSorted(sorted, probability));
};

function expectAsSorted(values: Float64Array, wanted = probabilities): void {
  const before = values.slice();
  const found = quantilesOf(values, 0, values.length, wanted).map((value) => value + 0);
  expect(found).toEqual(bySorting(values, wanted));
  expect(values).toEqual(before);
}

// Published: Hyndman & Fan 1996, definition 7, computed with R: P80 16, P90 21.
test("quantilesOf() is definition 7, whatever the order", () => {
  const [p80, p90] = quantilesOf(Float64Array.of(30, 7, 1, 15, 9, 2, 20, 4, 12, 8), 0, 10, [0.8, 0.9]);
  expect(p80).toBeCloseTo(16, 12);
  expect(p90).toBeCloseTo(21, 12);
});

// Property: any values at all, in any number, any probabilities in any order.
test("quantilesOf() gives exactly what sorting gives", () => {
  const value = fc.oneof(
    fc.double({ noNaN: true, noDefaultInfinity: true, min: -1e300, max: 1e300 }),
    fc.double({ noNaN: true, min: 0, max: 1 }),
    fc.integer({ min: -3, max: 3 }),
    fc.constant(0),
  );
  const column = fc.array(value, { minLength: 1, maxLength: 400, size: "max" });
  const wanted = fc.array(fc.double({ min: 0, max: 1, noNaN: true }), { minLength: 1, maxLength: 12 });
  fc.assert(
    fc.property(column, wanted, (values, at) => expectAsSorted(Float64Array.from(values), at)),
    { numRuns: 300 },
  );
});

// Property: the columns a simulation makes, of its usual sizes.
const makers: readonly (readonly [string, (score: number) => number])[] = [
  ["skewed", (score) => Math.exp(score)],
  ["mostly zero", (score) => Math.max(0, score - 0.3)],
  ["all equal", () => 12.5],
  ["a few values", (score) => Math.round(score)],
  ["with huge outliers", (score) => (Math.abs(score) > 3.2 ? 1e15 * score : score)],
  ["outliers over outliers", (score) => score * 10 ** Math.round(100 * Math.max(0, Math.abs(score) - 1))],
  ["a hair apart", (score) => 1e9 + Math.round(score) * 2 ** -23],
  ["subnormal", (score) => Math.round(score * 100) * 5e-324],
];
test.each(makers)("quantilesOf() gives exactly what sorting gives of a column that is %s", (_, make) => {
  for (const draws of [2, 49, 50, 625, 10_000]) expectAsSorted(drawScores("column", draws).map(make));
});

test("quantilesOf() looks at its stretch alone", () => {
  const values = Float64Array.of(99, 3, 1, 2, -99);
  expect(quantilesOf(values, 1, 4, [0, 0.5, 1])).toEqual([1, 2, 3]);
});

test("quantilesOf() copes with ranges too wide for a double", () => {
  expectAsSorted(Float64Array.from({ length: 200 }, (_, place) => (place - 100) * 1.7e306));
});
