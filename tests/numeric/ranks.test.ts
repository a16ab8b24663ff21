import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { ascendingOrder } from "../../src/numeric/ascending-order.ts";
import { correlationFromSums } from "../../src/numeric/correlation-from-sums.ts";
import { correlationRatio } from "../../src/numeric/correlation-ratio.ts";
import { midRanks } from "../../src/numeric/mid-ranks.ts";
import { expectWithin } from "./expect-close.ts";
import cases from "./fixtures/ranks.json" with { type: "json" };

const sum = (values: Iterable<number>) => [...values].reduce((total, value) => total + value, 0);

/** Spearman's correlation by its sums, the ranks about their mean. */
function spearman(x: readonly number[], y: readonly number[]): number {
  const middle = (x.length + 1) / 2;
  const ranks = (values: readonly number[]) =>
    midRanks(Float64Array.from(values)).map((rank) => rank - middle);
  const [a, b] = [ranks(x), ranks(y)];
  return correlationFromSums(
    x.length,
    sum(a),
    sum(a.map((rank) => rank * rank)),
    sum(b),
    sum(b.map((rank) => rank * rank)),
    sum(a.map((rank, at) => rank * b[at]!)),
  );
}

/** The correlation ratio of y on the distinct values of x. */
function ratio(x: readonly number[], y: readonly number[]): number {
  const groups = [...new Set(x)].flatMap((value) => {
    const within = y.filter((_, at) => x[at] === value);
    return [within.length, sum(within)];
  });
  return correlationRatio(
    Float64Array.from(groups),
    0,
    groups.length,
    2,
    1,
    sum(y.map((value) => value * value)),
  );
}

// Published: computed with SciPy, see fixtures/ranks.py.
describe.each(cases)("$name", ({ x, y, ranks, spearman: expected }) => {
  test("midRanks() are SciPy's", () => {
    expect([...midRanks(Float64Array.from(x))]).toEqual(ranks);
  });

  test("correlationFromSums() of mid-ranks is SciPy's Spearman", () => {
    expectWithin(spearman(x, y), expected, 1e-12);
  });
});

// Published: likewise.
test.each(cases.filter(({ epsilonSquared }) => epsilonSquared !== null))(
  "correlationRatio() is epsilon squared of SciPy's F: $name",
  ({ x, y, epsilonSquared }) => expectWithin(ratio(x, y), epsilonSquared!, 1e-12),
);

const anyValue = fc.oneof(
  fc.double({ noNaN: true, noDefaultInfinity: true }),
  fc.integer({ min: -5, max: 5 }),
  fc.constantFrom(0, -0, 5e-324, Number.MAX_VALUE, -Number.MAX_VALUE),
);
const column = fc.array(anyValue, { minLength: 1, maxLength: 400, size: "max" });

// Property.
test("ascendingOrder() names every place once, in ascending order of the values", () => {
  fc.assert(
    fc.property(column, (values) => {
      const order = [...ascendingOrder(Float64Array.from(values))];
      expect(order.toSorted((a, b) => a - b)).toEqual(values.map((_, place) => place));
      order.forEach((place, at) => at > 0 && expect(values[place]! >= values[order[at - 1]!]!).toBe(true));
    }),
    { numRuns: 300 },
  );
});

// Property: what cells of equal width cannot tell apart at once.
test("ascendingOrder() tells apart values that crowd together more and more", () => {
  const crowding = Float64Array.from({ length: 1000 }, (_, place) => 1 / (1 + place) ** 20);
  expect([...ascendingOrder(crowding)]).toEqual([...crowding.keys()].reverse());
});

// Property: half the sum of how many lie below and how many do not lie above, and half a place.
test("midRanks() count what lies below, and half of what ties", () => {
  fc.assert(
    fc.property(column, (values) => {
      const ranks = midRanks(Float64Array.from(values));
      values.forEach((value, place) => {
        const below = values.filter((other) => other < value).length;
        const ties = values.filter((other) => other === value).length;
        expect(ranks[place]).toBe(below + (ties + 1) / 2);
      });
    }),
    { numRuns: 100 },
  );
});

describe("correlationRatio()", () => {
  test("of an event is p (1 - p) (m1 - m0)^2 over the variance, but for what chance gives", () => {
    // By hand: p = 1/4, means 9 and 1: between 4 x 1/4 x 3/4 x 8^2 = 48, within 2 of 4 - 2 = 2 degrees of freedom, in all 50:
    // eta^2 = 48 / 50, epsilon^2 = (48 - 2 / 2) / 50 = .94.
    expectWithin(ratio([1, 0, 0, 0], [9, 0, 1, 2]), 0.94, 1e-15);
  });

  test("is 1 where the groups leave nothing open, 0 where nothing varies", () => {
    expect(ratio([0, 0, 1, 1], [2, 2, 5, 5])).toBe(1);
    expect(ratio([0, 0, 1, 1], [2, 2, 2, 2])).toBe(0);
  });

  test("passes over groups that hold nothing", () => {
    const sums = Float64Array.of(2, 4, 0, 0, 2, 10);
    expect(correlationRatio(sums, 0, 6, 2, 1, 58)).toBe(1);
  });
});

test("correlationFromSums() of something that never varies is 0", () => {
  expect(correlationFromSums(4, 0, 0, 1, 9, 0)).toBe(0);
});
