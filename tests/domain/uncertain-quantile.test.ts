import computed from "./fixtures/uncertain-quantiles.json" with { type: "json" };
import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { isConstant, uncertainQuantile } from "../../src/domain/uncertain-quantile.ts";
import type { Uncertain } from "../../src/domain/uncertain.ts";
import { normalQuantile } from "../../src/numeric/normal-quantile.ts";

/** Value at a probability, through the score. */
const at = (uncertain: Uncertain, probability: number) =>
  uncertainQuantile(uncertain)(normalQuantile(probability));

const levels = [0.1, 0.5, 0.8, 0.9];

describe("uncertainQuantile() against published and computed figures", () => {
  // Published: the project's check values, computed with SciPy 1.10 to six decimals.
  test.each([
    [{ kind: "pert", low: 10, mode: 15, high: 30 }, [12.244699, 16.276203, 19.803847, 21.677807]],
    [
      { kind: "pert", low: 10, mode: 15, high: 30, weight: 4, covers: 1 },
      [12.244699, 16.276203, 19.803847, 21.677807],
    ],
    [{ kind: "triangular", low: 10, mode: 15, high: 30 }, [13.162278, 17.752551, 22.254033, 24.522774]],
  ] as [Uncertain, number[]][])("%j at P10, P50, P80, P90", (uncertain, expected) => {
    levels.forEach((level, index) => expect(at(uncertain, level)).toBeCloseTo(expected[index]!, 5));
  });

  // Published: computed with SciPy 1.10.1 by fixtures/uncertain-quantiles.py. A PERT is good to 1e-7 of its range.
  test.each(computed.rows)("$uncertain at P10, P50, P80, P90", ({ uncertain, quantiles }) => {
    const tolerance = uncertain.kind === "pert" ? 1e-7 : 1e-12;
    computed.levels.forEach((level, index) => {
      const error = at(uncertain as Uncertain, level) - quantiles[index]!;
      expect(Math.abs(error)).toBeLessThan(tolerance * Math.max(1, Math.abs(quantiles[index]!)));
    });
  });

  // Published: an exponential wait of rate 2 a year has its median at .346574 years and its P95 at 1.497866.
  test("an exponential wait", () => {
    expect(at({ kind: "exponential", mean: 0.5 }, 0.5)).toBeCloseTo(0.346574, 6);
    expect(at({ kind: "exponential", mean: 0.5 }, 0.95)).toBeCloseTo(1.497866, 6);
  });
});

describe("uncertainQuantile() of what is given by its percentiles passes through them", () => {
  test.each(["triangular", "pert"] as const)(
    "%s whose low and high are P10 and P90, or P15 and P85",
    (kind) => {
      for (const [covers, tail] of [
        [0.8, 0.1],
        [0.7, 0.15],
      ] as const) {
        const uncertain = { kind, low: 10, mode: 15, high: 30, covers };
        expect(at(uncertain, tail)).toBeCloseTo(10, 6);
        expect(at(uncertain, 1 - tail)).toBeCloseTo(30, 6);
        expect(at(uncertain, 1e-10)).toBeLessThan(10);
      }
    },
  );

  test("percentiles, with and without a floor", () => {
    for (const floor of [{}, { floor: 35 }]) {
      const uncertain = { kind: "percentiles", p10: 40, p50: 50, p90: 100, ...floor } as const;
      expect([0.1, 0.5, 0.9].map((level) => at(uncertain, level))).toEqual([40, 50, 100].map(closeTo));
      expect(at(uncertain, 1e-10)).toBeGreaterThan("floor" in floor ? floor.floor! : 0);
    }
  });

  test("lognormal", () => {
    const uncertain = { kind: "lognormal", p10: 100, p90: 400 } as const;
    expect([0.1, 0.5, 0.9].map((level) => at(uncertain, level))).toEqual([100, 200, 400].map(closeTo));
  });
});

describe("uncertainQuantile() of a few values", () => {
  test("sorts a sample and gives each value its weight", () => {
    const uncertain = { kind: "sample", values: [30, 10, 20], weights: [1, 1, 2] } as const;
    const levelled = [0.01, 0.24, 0.26, 0.74, 0.76, 0.99].map((level) => at(mutable(uncertain), level));
    expect(levelled).toEqual([10, 10, 20, 20, 30, 30]);
    const even = { kind: "sample", values: [5, 1] } as const;
    expect([0.49, 0.51].map((level) => at(mutable(even), level))).toEqual([1, 5]);
  });

  test("sorts the outcomes of a discrete one", () => {
    const outcomes = [
      { value: 8, probability: 0.25 },
      { value: -2, probability: 0.75 },
    ];
    const uncertain: Uncertain = { kind: "discrete", outcomes };
    expect([0.01, 0.74, 0.76, 0.99].map((level) => at(uncertain, level))).toEqual([-2, -2, 8, 8]);
    expect(outcomes[0]!.value).toBe(8);
  });
});

test("uncertainQuantile() lets draws below `atLeast` count as it, and no others below 0", () => {
  expect(at({ kind: "normal", mean: 10, sd: 5, atLeast: 8 }, 0.01)).toBe(8);
  expect(at({ kind: "normal", mean: 10, sd: 5, atLeast: 8 }, 0.9)).toBeCloseTo(16.407758, 6);
  expect(at({ kind: "normal", mean: 1, sd: 5 }, 0.01)).toBeLessThan(-10);
});

test("uncertainQuantile() clips a log-student at .001 and .999", () => {
  const uncertain: Uncertain = { kind: "log-student", location: 5, scale: 0.3, freedom: 4 };
  expect(at(uncertain, 1e-9)).toBe(at(uncertain, 0.0009));
  expect(at(uncertain, 0.9999)).toBe(at(uncertain, 0.9991));
  expect(at(uncertain, 0.0011)).toBeGreaterThan(at(uncertain, 0.0009));
});

test.each([
  [5, true],
  [{ kind: "uniform", low: 5, high: 5 }, true],
  [{ kind: "uniform", low: 5, high: 6 }, false],
  [{ kind: "pert", low: 5, mode: 5, high: 5, covers: 0.8 }, true],
  [{ kind: "triangular", low: 5, mode: 5, high: 6 }, false],
  [{ kind: "normal", mean: 5, sd: 0 }, true],
  [{ kind: "lognormal", mean: 5, sd: 0 }, true],
  [{ kind: "log-student", location: 1, scale: 0, freedom: 5 }, true],
  [{ kind: "sample", values: [5, 5] }, true],
  [{ kind: "sample", values: [5, 6] }, false],
  [{ kind: "discrete", outcomes: [{ value: 5, probability: 1 }] }, true],
] as [Uncertain, boolean][])("isConstant() of %j is %s", (uncertain, expected) => {
  expect(isConstant(uncertain)).toBe(expected);
});

test("uncertainQuantile() never falls as the score rises (property)", () => {
  const amount = fc.integer({ min: 0, max: 10_000 });
  const uncertain = fc
    .tuple(fc.uniqueArray(amount, { minLength: 3, maxLength: 3 }), fc.integer({ min: 0, max: 8 }))
    .map(([values, kind]) =>
      distributionOf(
        [...values].sort((a, b) => a - b),
        kind,
      ),
    );
  const score = fc.double({ min: -6.5, max: 6.5, noNaN: true });
  fc.assert(
    fc.property(uncertain, score, score, (distribution, one, other) => {
      const quantile = uncertainQuantile(distribution);
      const [low, high] = [quantile(Math.min(one, other)), quantile(Math.max(one, other))];
      expect(high - low).toBeGreaterThanOrEqual(-1e-9 * Math.abs(low));
    }),
  );
});

function distributionOf(ascending: readonly number[], kind: number): Uncertain {
  const [low, mode, high] = ascending.map((value) => value + 1) as [number, number, number];
  const kinds: Uncertain[] = [
    { kind: "uniform", low, high },
    { kind: "triangular", low, mode, high },
    { kind: "pert", low, mode, high, covers: 0.8 },
    { kind: "percentiles", p10: low, p50: mode, p90: high },
    { kind: "lognormal", p10: low, p90: high },
    { kind: "lognormal", mean: mode, sd: high },
    { kind: "normal", mean: mode, sd: low },
    { kind: "log-student", location: low / 1000, scale: 0.5, freedom: 3 },
    { kind: "sample", values: [high, low, mode] },
  ];
  return kinds[kind]!;
}

function closeTo(value: number): unknown {
  return expect.closeTo(value, 8);
}

function mutable(uncertain: {
  kind: "sample";
  values: readonly number[];
  weights?: readonly number[];
}): Uncertain {
  return structuredClone(uncertain) as Uncertain;
}
