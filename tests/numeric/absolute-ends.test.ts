import fc from "fast-check";
import { expect, test } from "vitest";
import { absoluteEnds } from "../../src/numeric/absolute-ends.ts";
import { betaPertQuantile } from "../../src/numeric/beta-pert-quantile.ts";
import { normalQuantile } from "../../src/numeric/normal-quantile.ts";
import { triangularQuantile } from "../../src/numeric/triangular-quantile.ts";
import { expectWithin } from "./expect-close.ts";
import fixture from "./fixtures/absolute-ends.json" with { type: "json" };

type Kind = "triangular" | "pert";
type Row = [Kind, number, number, number, number, number, number, number];

// Published: SciPy's solution of both equations at once (fixtures/absolute-ends.py), good to about 1e-10 of the distance.
test("absoluteEnds() agrees with a direct solution", () => {
  for (const [kind, low, mode, high, covers, weight, a, b] of fixture as Row[]) {
    const ends = absoluteEnds(kind, low, mode, high, covers, weight);
    const where = `${kind} ${low} ${mode} ${high} covers ${covers} weight ${weight}:`;
    expectWithin(ends.low, a, 1e-8 * (b - a), where);
    expectWithin(ends.high, b, 1e-8 * (b - a), where);
  }
});

const kind = fc.constantFrom<Kind>("triangular", "pert");
const share = fc.oneof(fc.constantFrom(0, 1), fc.double({ min: 0, max: 1, noNaN: true }));

// Property: what defines the ends; modes at low and at high included. The ends lie up to 1 / covers ranges away.
test("absoluteEnds() makes low and high the percentiles they should be, the mode kept between", () => {
  const covers = fc.double({ min: 0.01, max: 1, noNaN: true });
  const weight = fc.double({ min: 0.01, max: 100, noNaN: true });
  fc.assert(
    fc.property(kind, share, covers, weight, (of, mode, covered, w) => {
      const ends = absoluteEnds(of, 0, mode, 1, covered, w);
      const quantile =
        of === "triangular"
          ? triangularQuantile(ends.low, mode, ends.high)
          : betaPertQuantile(ends.low, mode, ends.high, w);
      const z = normalQuantile((1 - covered) / 2);
      expect(ends.low <= 0 && ends.high >= 1).toBe(true);
      if (covered === 1) return;
      expectWithin(quantile(z), 0, 1e-12 * (ends.high - ends.low));
      expectWithin(quantile(-z), 1, 1e-12 * (ends.high - ends.low));
    }),
    { numRuns: 300 },
  );
});

test("absoluteEnds() leaves absolute ends and single values alone", () => {
  expect(absoluteEnds("pert", 10, 15, 30, 1, 4)).toEqual({ low: 10, high: 30 });
  expect(absoluteEnds("triangular", 15, 15, 15, 0.8, 4)).toEqual({ low: 15, high: 15 });
});

test("absoluteEnds() refuses a share of nothing, and values out of order", () => {
  for (const covers of [0, -0.5, 1.1, 1e-7, NaN]) {
    expect(() => absoluteEnds("pert", 10, 15, 30, covers, 4)).toThrow(
      expect.objectContaining({ code: "covers-infeasible" }),
    );
  }
  expect(() => absoluteEnds("pert", 10, 9, 30, 0.8, 4)).toThrow(
    expect.objectContaining({ code: "values-not-ascending" }),
  );
});
