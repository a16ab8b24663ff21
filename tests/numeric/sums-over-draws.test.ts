import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { layRows, rowStride } from "../../src/numeric/draw-rows.ts";
import { levelStride, sumLevels } from "../../src/numeric/level-sums.ts";
import { sumProducts } from "../../src/numeric/product-sums.ts";
import { productStride, sumRankProducts } from "../../src/numeric/rank-products.ts";

/** Whole numbers, whose sums are exact whatever their order. */
const whole = fc.integer({ min: -1000, max: 1000 });
const draw = fc.record({
  columns: fc.array(whole, { minLength: rowStride, maxLength: rowStride }),
  level: fc.nat({ max: 4 }),
  stretch: fc.nat({ max: 3 }),
});
/** Draws of a few stretches, some of which may be empty. */
const anyDraws = fc
  .array(draw, { minLength: 1, maxLength: 200, size: "max" })
  .map((draws) => draws.toSorted((a, b) => a.stretch - b.stretch));

type Draws = typeof anyDraws extends fc.Arbitrary<infer T> ? T : never;

const stretches = [0, 1, 2, 3];
const startsOf = (draws: Draws) =>
  Int32Array.from([...stretches, 4], (stretch) => draws.filter((one) => one.stretch < stretch).length);
const columnsOf = (draws: Draws) =>
  Array.from({ length: rowStride }, (_, at) => Float64Array.from(draws, ({ columns }) => columns[at]!));
const sumOf = (values: readonly number[]) => values.reduce((sum, value) => sum + value, 0);

/** How many draws there are, and the sums of their columns. */
const tallied = (draws: Draws) => [
  draws.length,
  ...Array.from({ length: rowStride }, (_, at) => sumOf(draws.map(({ columns }) => columns[at]!))),
];

// Property: whole numbers have exact sums.
describe("sumLevels() adds up what each level of each stretch holds", () => {
  test.each([2, 5])("of %i levels", (count) => {
    fc.assert(
      fc.property(anyDraws, (draws) => {
        const levels = draws.map(({ level }) => Math.min(level, count - 1));
        const totals = stretches.flatMap((stretch) =>
          tallied(draws.filter((one) => one.stretch === stretch)),
        );
        const sums = sumLevels(
          Uint8Array.from(levels),
          count,
          startsOf(draws),
          layRows(columnsOf(draws)),
          Float64Array.from(totals),
        );
        const expected = stretches.flatMap((stretch) =>
          Array.from({ length: count }, (_, level) =>
            tallied(draws.filter((one, at) => one.stretch === stretch && levels[at] === level)),
          ).flat(),
        );
        expect([...sums].map((value) => value + 0)).toEqual(expected);
        expect(sums).toHaveLength(stretches.length * count * levelStride);
      }),
    );
  });
});

test("sumProducts() adds up each stretch and its products", () => {
  fc.assert(
    fc.property(anyDraws, (draws) => {
      const [a, b] = columnsOf(draws) as [Float64Array, Float64Array];
      const expected = stretches.flatMap((stretch) => {
        const within = draws.filter((one) => one.stretch === stretch);
        return [
          sumOf(within.map(({ columns }) => columns[0]!)),
          sumOf(within.map(({ columns }) => columns[0]! * columns[1]!)),
        ];
      });
      expect([...sumProducts(a, b, startsOf(draws))].map((value) => value + 0)).toEqual(expected);
    }),
  );
});

test("sumRankProducts() adds up ranks, squares and products with the last three columns", () => {
  const rankOf = Float64Array.of(-2, -1, 0, 1.5, 3);
  fc.assert(
    fc.property(anyDraws, (draws) => {
      const cells = Uint16Array.from(draws, ({ level }) => level);
      const sums = sumRankProducts(cells, rankOf, startsOf(draws), layRows(columnsOf(draws)));
      const expected = stretches.flatMap((stretch) => {
        const within = draws.filter((one) => one.stretch === stretch);
        const times = (of: (draw: Draws[number]) => number) =>
          sumOf(within.map((one) => rankOf[one.level]! * of(one)));
        return [
          times(() => 1),
          times(({ level }) => rankOf[level]!),
          ...[3, 4, 5].map((at) => times(({ columns }) => columns[at]!)),
        ];
      });
      expect([...sums].map((value) => value + 0)).toEqual(expected.map((value) => value + 0));
      expect(sums).toHaveLength(stretches.length * productStride);
    }),
  );
});
