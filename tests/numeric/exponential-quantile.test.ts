import { expect, test } from "vitest";
import { exponentialQuantile } from "../../src/numeric/exponential-quantile.ts";
import { normalQuantile } from "../../src/numeric/normal-quantile.ts";
import { drawScores, shareError, shareOf, valuesAt } from "./draw.ts";
import { expectRelative, expectWithin } from "./expect-close.ts";

/** Two finds a year: a mean wait of half a year. */
const wait = exponentialQuantile(0.5);

// Published: waiting for a rare part, computed: P(within half a year) .632121, median .346574, 95 % point 1.497866 years.
test("exponentialQuantile() has the waits of a part found twice a year", () => {
  expectWithin(wait(0), 0.346574, 5e-7);
  expectWithin(wait(normalQuantile(0.95)), 1.497866, 5e-7);
  expectWithin(wait(normalQuantile(1 - Math.exp(-1))), 0.5, 1e-14);
  expectWithin(wait(normalQuantile(0.632121)), 0.5, 1e-6);
});

// Published: -log(1 - p) for p = Phi(z): Phi(-8) = 6.220960574271784e-16 (mpmath).
test("exponentialQuantile() keeps its precision in both tails", () => {
  expectRelative(wait(-8), 0.5 * 6.220960574271784e-16, 1e-14);
  expectRelative(wait(8), -0.5 * Math.log(6.220960574271784e-16), 1e-14);
  expect(wait(-40)).toBeGreaterThanOrEqual(0);
});

// Statistical, fixed seed. Tolerance: 5 sqrt(p (1 - p) / n).
test("exponentialQuantile() gives draws the share of short waits", () => {
  const waits = valuesAt(wait, drawScores("wait", 200_000));
  expectWithin(
    shareOf(waits, (years) => years <= 0.5),
    0.632121,
    5 * shareError(0.632121, waits.length),
  );
});
