import { describe, test } from "vitest";
import type { Uncertain } from "../../src/domain/uncertain.ts";
import { simulation } from "../../src/simulation/simulate.ts";
import { expectMean, expectQuantile, expectSd, expectShareUpTo } from "./column-figures.ts";
import { copies, sumOf } from "./overhead-document.ts";

/** A cost below 0 counts as 0, so the model's zero is moved to +100 in all, evenly over its four terms. */
const shift = 100;
const normal: Uncertain = { kind: "normal", mean: shift / 4, sd: 1 };
const rectangular = (sd: number): Uncertain => ({
  kind: "uniform",
  low: shift / 4 - sd * Math.sqrt(3),
  high: shift / 4 + sd * Math.sqrt(3),
});

/**
 * Published: JCGM 101:2008, 9.2 (from memory): u 2.00 and 95 % [-3.92, 3.92]; u 2.00 and [-3.88, 3.88]; u 10.1 and
 * [-17.0, 17.0]. Exact values, of which these are roundings, computed with SciPy 1.10.
 */
const additive = [
  { clause: "9.2.2", what: "four normals", terms: copies(4, normal), sd: 2, end: 3.9199 },
  { clause: "9.2.3", what: "four rectangulars", terms: copies(4, rectangular(1)), sd: 2, end: 3.879407 },
  {
    clause: "9.2.4",
    what: "three rectangulars and one ten times as wide",
    terms: [...copies(3, rectangular(1)), rectangular(10)],
    sd: 10.148892,
    end: 17.015814,
  },
];

describe.each(["stratified", "independent"] as const)(
  "published sums through the whole engine, %s sampling (5 standard errors)",
  (sampling) => {
    test.each(additive)("simulation() reproduces JCGM 101 $clause, $what", ({ terms, sd, end }) => {
      // So many that the interval's ends are within .03, which tells 9.2.3 from 9.2.2.
      const { cash } = simulation(sumOf(terms), { draws: 1_000_000, sampling }).money;
      expectMean(cash, shift);
      expectSd(cash, sd);
      expectQuantile(cash, 0.025, shift - end);
      expectQuantile(cash, 0.975, shift + end);
    });

    // Published: Irwin-Hall distribution, the sum of n uniform (0, 1); exact.
    test.each([
      { n: 2, x: 0.5, probability: 0.125 },
      { n: 3, x: 1, probability: 1 / 6 },
      { n: 4, x: 1, probability: 1 / 24 },
      { n: 5, x: 1.5, probability: 0.0619791667 },
    ])("simulation() reproduces Irwin-Hall, F$n($x)", ({ n, x, probability }) => {
      const document = sumOf(copies(n, { kind: "uniform", low: 0, high: 1 }));
      const { cash } = simulation(document, { draws: 200_000, sampling }).money;
      expectMean(cash, n / 2);
      expectSd(cash, Math.sqrt(n / 12));
      expectShareUpTo(cash, x, probability);
    });

    // Published: sum of two independent lognormals (mu 0), computed with SciPy; P10 and P90 of one are exp(-+1.28155 sigma).
    test.each([
      { sigma: 0.25, percentiles: [1.616783, 2.030745, 2.35923, 2.551807, 2.722799] },
      { sigma: 0.5, percentiles: [1.3353, 2.118741, 2.875651, 3.377179, 3.859604] },
    ])("simulation() reproduces the sum of two lognormals, sigma $sigma", ({ sigma, percentiles }) => {
      const reach = Math.exp(1.2815515655446004 * sigma);
      const document = sumOf(copies(2, { kind: "lognormal", p10: 1 / reach, p90: reach }));
      const { cash } = simulation(document, { draws: 200_000, sampling }).money;
      percentiles.forEach((expected, place) => {
        expectQuantile(cash, [0.1, 0.5, 0.8, 0.9, 0.95][place]!, expected);
      });
    });
  },
);
