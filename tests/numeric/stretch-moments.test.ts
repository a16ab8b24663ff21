import fc from "fast-check";
import { mean, sampleStandardDeviation } from "simple-statistics";
import { expect, test } from "vitest";
import { stretchMeans, stretchMoments } from "../../src/numeric/stretch-moments.ts";

// Property, against the general library: every stretch and the whole.
test("stretchMoments() gives the means and deviations of every stretch and of the whole", () => {
  const stretch = fc.array(fc.double({ min: -1e6, max: 1e6, noNaN: true }), { minLength: 2, maxLength: 30 });
  fc.assert(
    fc.property(fc.array(stretch, { minLength: 1, maxLength: 6 }), (stretches) => {
      const starts = Int32Array.from([
        0,
        ...stretches.map((_, i) => stretches.slice(0, i + 1).flat().length),
      ]);
      const { means, squares } = stretchMoments(Float64Array.from(stretches.flat()), starts);
      [...stretches, stretches.flat()].forEach((values, row) => {
        expect(Math.abs(means[row]! - mean(values))).toBeLessThan(1e-9 * 1e6);
        const sd = Math.sqrt(squares[row]! / (values.length - 1));
        expect(Math.abs(sd - sampleStandardDeviation(values))).toBeLessThan(1e-9 * 1e6);
      });
    }),
  );
});

test("stretchMeans() is exact where all values are equal", () => {
  expect([...stretchMeans(new Float64Array(7).fill(0.1), Int32Array.of(0, 3, 7))]).toEqual([0.1, 0.1, 0.1]);
  expect([...stretchMoments(new Float64Array(7).fill(0.1), Int32Array.of(0, 3, 7)).squares]).toEqual([
    0, 0, 0,
  ]);
});
