import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { borderAround, borderGroup } from "../../src/numeric/border-group.ts";
import { layRows, rowStride } from "../../src/numeric/draw-rows.ts";
import { cellCount, makeOrderedCells, sortIntoCells } from "../../src/numeric/ordered-cells.ts";
import { tailMean } from "../../src/numeric/tail-mean.ts";
import { borderSize, sumTails, tailGroups, tailSize, tailStride } from "../../src/numeric/tail-sums.ts";
import { expectWithin } from "./expect-close.ts";

describe("borderGroup()", () => {
  test.each([
    { tally: [10, 20, 70], wanted: 10, low: 0, high: 2 },
    { tally: [10, 20, 70], wanted: 10.5, low: 1, high: 2 },
    { tally: [0, 0, 95, 5, 0], wanted: 10, low: 2, high: 2 },
    { tally: [3, 0, 0, 4], wanted: 7, low: 3, high: 0 },
  ])(
    "finds $wanted of $tally up to group $low from below and $high from above",
    ({ tally, wanted, low, high }) => {
      expect(borderGroup(tally, wanted, "low")).toBe(low);
      expect(borderGroup(tally, wanted, "high")).toBe(high);
    },
  );

  test("does not ask for one more draw because a share is not exact", () => {
    // 3 x .1 is .30000000000000004.
    expect(borderGroup([3, 7], 30 * 0.1, "low")).toBe(0);
  });
});

describe("borderAround()", () => {
  test("takes in neighbours until each side has a hundredth of the draws", () => {
    const tally = new Int32Array(400).fill(10);
    // 4,000 draws: 40 on either side are 4 groups.
    expect(borderAround(tally, 4000, 100)).toEqual({ first: 96, at: 100, last: 104 });
  });

  test("stays where many are tied, and does not take in a neighbour where many are", () => {
    expect(borderAround([5, 60, 5], 1000, 1)).toEqual({ first: 1, at: 1, last: 1 });
    expect(borderAround([1, 500, 3, 4, 492], 1000, 2)).toEqual({ first: 2, at: 2, last: 3 });
  });

  test("ends with the groups", () => {
    expect(borderAround([1, 1, 1], 1000, 1)).toEqual({ first: 0, at: 1, last: 2 });
  });
});

const quantity = fc.integer({ min: -100, max: 100 });
const values = [
  fc.integer({ min: 0, max: 3 }),
  fc.double({ min: 0, max: 1, noNaN: true }),
  fc.double({ min: -1e12, max: 1e12, noNaN: true }),
];
/** A column and another quantity: of few values, of many, far apart, or of all kinds. */
const pairs = fc.oneof(
  ...[...values, fc.oneof(...values)].map((value) =>
    fc.array(fc.tuple(value, quantity), { minLength: 2, maxLength: 300, size: "max" }),
  ),
);

// Property.
test("sortIntoCells() keeps the order, ties equals, and crowds no more than a hundredth that differ", () => {
  fc.assert(
    fc.property(pairs, (drawn) => {
      const column = Float64Array.from(drawn, ([value]) => value);
      const { cells, tally } = sorted(column);
      fc.pre(column.some((value) => value !== column[0]));
      const order = [...column.keys()].sort((a, b) => column[a]! - column[b]!);
      for (let at = 1; at < order.length; at++) {
        const [lower, upper] = [order[at - 1]!, order[at]!];
        const [below, above] = [cells[lower]!, cells[upper]!];
        expect(below <= above).toBe(true);
        if (column[lower] === column[upper]) expect(below).toBe(above);
        else if (below === above) expect(tally[below]).toBeLessThanOrEqual(Math.max(1, column.length / 100));
      }
      cells.forEach((cell) => expect(tally[cell]).toBe(cells.filter((one) => one === cell).length));
    }),
    { numRuns: 100 },
  );
});

function sorted(column: Float64Array) {
  const into = makeOrderedCells(column.length);
  expect(sortIntoCells(column, into)).toBe(column.some((value) => value !== column[0]));
  return into;
}

test("sortIntoCells() sorts what lies too far apart, and too close together, for its arithmetic", () => {
  const into = makeOrderedCells(3);
  for (const values of [
    [-1.7e308, 0, 1.7e308],
    [0, 5e-324, 1e-323],
  ]) {
    expect(sortIntoCells(Float64Array.from(values), into)).toBe(true);
    expect(into.cells[0]! < into.cells[1]! && into.cells[1]! < into.cells[2]!).toBe(true);
  }
});

/** Mean of the second over the tenth with the lowest first: ties at the border share, straight from the definition. */
function meanOfLowest(drawn: readonly (readonly [number, number])[], share: number): number {
  const wanted = drawn.length * share;
  const ascending = drawn.toSorted(([a], [b]) => a - b);
  const border = ascending[Math.ceil(wanted - 1e-9) - 1]![0];
  const beyond = drawn.filter(([value]) => value < border);
  const tied = drawn.filter(([value]) => value === border);
  const weight = (wanted - beyond.length) / tied.length;
  const sum = (list: typeof drawn) => list.reduce((total, [, quantity]) => total + quantity, 0);
  return (sum(beyond) + weight * sum(tied)) / wanted;
}

/** The same by cells, borders and sums over three stretches. */
function meansOfTails(
  drawn: readonly (readonly [number, number])[],
  share: number,
): { low: number; high: number } {
  const draws = drawn.length;
  const { cells, tally } = sorted(Float64Array.from(drawn, ([value]) => value));
  const rows = layRows(Array.from({ length: rowStride }, () => Float64Array.from(drawn, ([, of]) => of)));
  const starts = Int32Array.of(0, Math.floor(draws / 3), Math.floor(draws / 2), draws);
  const [low, high] = (["low", "high"] as const).map((end) =>
    borderAround(tally, draws, borderGroup(tally, draws * share, end)),
  );
  const sums = sumTails(cells, cellCount, low!, high!, starts, rows);
  const { far, near, at } = tailGroups;
  const tail = (border: number) => {
    const over = (group: number, place: number) =>
      [0, 1, 2].reduce(
        (sum, stretch) => sum + sums[stretch * tailSize + border + group * tailStride + place]!,
        0,
      );
    const beyond = over(far, 0) + over(near, 0);
    const weight = (draws * share - beyond) / over(at, 0);
    // Without a surplus the mean near the border counts for nothing.
    return tailMean(
      draws * share,
      beyond,
      over(far, 2) + over(near, 2),
      over(at, 0),
      over(at, 2),
      weight,
      1e6,
    );
  };
  return { low: tail(0), high: tail(borderSize) };
}

// Property: borders and sums change nothing of the definition; what is in one cell is tied.
test("sumTails() and tailMean() give the mean over the tenth, ties at its border sharing", () => {
  fc.assert(
    fc.property(pairs, (drawn) => {
      fc.pre(drawn.some(([value]) => value !== drawn[0]![0]));
      const { low, high } = meansOfTails(drawn, 0.1);
      const { cells } = sorted(Float64Array.from(drawn, ([value]) => value));
      const byCell = drawn.map(([, of], draw) => [cells[draw]!, of] as const);
      expectWithin(low, meanOfLowest(byCell, 0.1), 1e-6);
      expectWithin(
        high,
        meanOfLowest(
          byCell.map(([cell, of]) => [-cell, of] as const),
          0.1,
        ),
        1e-6,
      );
    }),
    { numRuns: 200 },
  );
});

describe("tailMean() by hand", () => {
  test("an event in 5 of 100 draws: the highest tenth is those, and the average of the rest for the other half", () => {
    // 5 draws of 30 beyond; of 95 tied ones of mean 4 the other 5: (150 + 5 x 4) / 10.
    expect(tailMean(10, 5, 150, 95, 380, 5 / 95, 4)).toBeCloseTo(17, 12);
  });

  test("a draw too many beyond the border is taken off at the mean near it", () => {
    expect(tailMean(10, 11, 112, 0, 0, 0, 12)).toBe(10);
  });
});
