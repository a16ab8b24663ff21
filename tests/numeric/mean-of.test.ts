import fc from "fast-check";
import { expect, test } from "vitest";
import { covariance } from "../../src/numeric/covariance.ts";
import { meanOf } from "../../src/numeric/mean-of.ts";
import { sdOf } from "../../src/numeric/sd-of.ts";
import { expectRelative } from "./expect-close.ts";

// Property: a certain quantity is certain to the last bit.
test("meanOf() of equal values is exactly that value, and sdOf() exactly 0", () => {
  const value = fc.double({ min: -1e300, max: 1e300, noNaN: true });
  fc.assert(
    fc.property(value, fc.integer({ min: 2, max: 1000 }), (of, count) => {
      const values = new Float64Array(count).fill(of);
      expect(meanOf(values, 0, count) === of).toBe(true);
      expect(sdOf(values, 0, count)).toBe(0);
      expect(covariance(values, Float64Array.from(values.keys()), 0, count)).toBe(0);
    }),
  );
});

// Property: whole numbers have exact sums.
test("meanOf() and covariance() agree with exact sums of whole numbers", () => {
  const pair = fc.tuple(fc.integer({ min: -1e6, max: 1e6 }), fc.integer({ min: -1e6, max: 1e6 }));
  fc.assert(
    fc.property(fc.array(pair, { minLength: 2, maxLength: 200 }), (pairs) => {
      const n = pairs.length;
      const a = Float64Array.from(pairs, ([first]) => first);
      const b = Float64Array.from(pairs, ([, second]) => second);
      const sum = (of: (pair: [number, number]) => number) =>
        pairs.reduce((total, each) => total + BigInt(of(each)), 0n);
      const [sumA, sumB, sumAB] = [sum(([x]) => x), sum(([, y]) => y), sum(([x, y]) => x * y)];
      const exact = Number(BigInt(n) * sumAB - sumA * sumB) / (n * (n - 1));
      expect(Math.abs(meanOf(a, 0, n) - Number(sumA) / n)).toBeLessThanOrEqual(1e-9);
      expect(Math.abs(covariance(a, b, 0, n) - exact)).toBeLessThanOrEqual(1e-3);
    }),
  );
});

// Published: NIST StRD univariate sets are of this kind: a large constant and a small spread. Mean and standard deviation
// of 1e9 + .1, .2, .3 repeated are known by hand: .2 above 1e9, sqrt(.02 / 3 * n / (n - 1)).
test("sdOf() keeps its digits beside a large mean", () => {
  const values = Float64Array.from({ length: 999 }, (_, place) => 1e9 + 0.125 * (1 + (place % 3)));
  expect(meanOf(values, 0, 999)).toBe(1e9 + 0.25);
  expectRelative(sdOf(values, 0, 999), 0.125 * Math.sqrt(((2 / 3) * 999) / 998), 1e-13);
});

test("meanOf() is not led astray by a first value far from the others", () => {
  const values = new Float64Array(1000).fill(0.1);
  values[0] = 1e12;
  expectRelative(meanOf(values, 0, 1000), 1e9 + 0.0999, 1e-13);
});

test("meanOf() and sdOf() look at their stretch alone", () => {
  const values = Float64Array.of(1e9, 1, 3, -1e9);
  expect(meanOf(values, 1, 3)).toBe(2);
  expect(sdOf(values, 1, 3)).toBe(Math.SQRT2);
});
