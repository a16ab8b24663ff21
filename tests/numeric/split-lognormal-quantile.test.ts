import fc from "fast-check";
import { expect, test } from "vitest";
import { normalQuantile } from "../../src/numeric/normal-quantile.ts";
import { splitLognormalQuantile } from "../../src/numeric/split-lognormal-quantile.ts";
import { expectRelative } from "./expect-close.ts";

// Property.
test("splitLognormalQuantile() goes through its three points and stays above its floor", () => {
  const step = fc.double({ min: 1, max: 1e6, noNaN: true });
  fc.assert(
    fc.property(fc.double({ min: 0, max: 1e6, noNaN: true }), step, step, step, (floor, a, b, c) => {
      const [p10, p50, p90] = [floor + a, floor + a + b, floor + a + b + c];
      const quantile = splitLognormalQuantile(p10, p50, p90, floor);
      expectRelative(quantile(normalQuantile(0.1)), p10, 1e-13);
      expectRelative(quantile(0), p50, 1e-15);
      expectRelative(quantile(normalQuantile(0.9)), p90, 1e-13);
      expect(quantile(-8)).toBeGreaterThanOrEqual(floor);
    }),
  );
});

// Published: with equal ratios on both sides it is the lognormal itself, median 200, log-sd log(2) / 1.2815515655446004.
test("splitLognormalQuantile() of an even spread is lognormal", () => {
  const quantile = splitLognormalQuantile(100, 200, 400, 0);
  for (const z of [-3, -0.4, 0.9, 2.5]) {
    expectRelative(quantile(z), 200 * Math.exp((Math.log(2) / 1.2815515655446004) * z), 1e-14);
  }
});

test.each([
  [10, 10, 20, 0],
  [10, 15, 15, 0],
  [10, 15, 20, 10],
  [NaN, 15, 20, 0],
])("splitLognormalQuantile(%d, %d, %d, %d) is an error that names the values", (p10, p50, p90, floor) => {
  expect(() => splitLognormalQuantile(p10, p50, p90, floor)).toThrow(
    expect.objectContaining({
      code: "percentiles-not-ascending",
      message: expect.stringContaining(`${floor}, ${p10}, ${p50}, ${p90}`) as string,
    }),
  );
});
