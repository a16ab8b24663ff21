import { describe, expect, test } from "vitest";
import type { Uncertain } from "../../src/domain/uncertain.ts";
import { simulation } from "../../src/simulation/simulate.ts";
import {
  expectMean,
  expectQuantile,
  expectSd,
  expectShareUpTo,
  meanOf,
  quantileOf,
  sdOf,
} from "./column-figures.ts";
import { copies, sumOf } from "./overhead-document.ts";

/** More than keep their lines: totals are all that is asked here. */
const draws = 1_000_000;
const samplings = ["stratified", "independent"] as const;

/** A cost below 0 counts as 0, so the model's zero is moved to +100 in all, evenly over its terms. */
const shift = 100;
const rectangular = (centre: number, sd: number): Uncertain => ({
  kind: "uniform",
  low: centre - sd * Math.sqrt(3),
  high: centre + sd * Math.sqrt(3),
});
const normal = (centre: number): Uncertain => ({ kind: "normal", mean: centre, sd: 1 });

/**
 * Published: JCGM 101:2008, 9.2 (published figures from memory; exact ones computed with SciPy 1.10). The published
 * digits must follow: 5 standard errors of the interval's ends at this number of draws are at most .03 (.08 where the sd
 * is 10), so half a unit of the last digit is allowed on top.
 */
const additive = [
  {
    clause: "9.2.2, four normals",
    terms: copies(4, normal(shift / 4)),
    sd: 2,
    end: 3.9199,
    published: { sd: 2.0, end: 3.92, digit: 0.01 },
  },
  {
    clause: "9.2.3, four rectangulars",
    terms: copies(4, rectangular(shift / 4, 1)),
    sd: 2,
    end: 3.879407,
    published: { sd: 2.0, end: 3.88, digit: 0.01 },
  },
  {
    clause: "9.2.4, three rectangulars and one ten times as wide",
    terms: [...copies(3, rectangular(shift / 4, 1)), rectangular(shift / 4, 10)],
    sd: 10.148892,
    end: 17.015814,
    published: { sd: 10.1, end: 17.0, digit: 0.1 },
  },
];

describe.each(samplings)("published sums through the whole engine, %s", (sampling) => {
  test.each(additive)("simulation() reproduces JCGM 101 $clause", ({ terms, sd, end, published }) => {
    const { cash } = simulation(sumOf(terms), { draws, sampling }).money;
    expectMean(cash, shift);
    expectSd(cash, sd);
    expectQuantile(cash, 0.025, shift - end);
    expectQuantile(cash, 0.975, shift + end);
    expect(Math.abs(meanOf(cash) - shift)).toBeLessThan(published.digit * 5);
    expect(Math.abs(sdOf(cash) - published.sd)).toBeLessThan(published.digit * 5);
    expect(Math.abs(quantileOf(cash, 0.975) - shift - published.end)).toBeLessThan(published.digit * 3.5);
    expect(Math.abs(quantileOf(cash, 0.025) - shift + published.end)).toBeLessThan(published.digit * 3.5);
  });

  // Published: Irwin-Hall distribution of the sum of n uniform (0, 1), F_n(x), exact.
  test.each([
    [2, 0.5, 0.125],
    [3, 1, 1 / 6],
    [4, 1, 1 / 24],
    [5, 1.5, 0.0619791667],
  ])(
    "simulation() reproduces Irwin-Hall: the sum of %i uniforms is at most %f with probability %f",
    (count, limit, probability) => {
      const document = sumOf(copies(count, { kind: "uniform", low: 0, high: 1 }));
      expectShareUpTo(simulation(document, { draws, sampling }).money.cash, limit, probability);
    },
  );

  // Published: sum of two independent lognormals (mu 0), computed with SciPy. P10 and P90 of one: exp(-+1.28155 sigma).
  test.each([
    [0.25, [1.616783, 2.030745, 2.35923, 2.551807, 2.722799]],
    [0.5, [1.3353, 2.118741, 2.875651, 3.377179, 3.859604]],
  ])("simulation() reproduces the percentiles of two lognormals' sum, sigma %f", (sigma, percentiles) => {
    const reach = Math.exp(1.2815515655446004 * sigma);
    const document = sumOf(copies(2, { kind: "lognormal", p10: 1 / reach, p90: reach }));
    const { cash } = simulation(document, { draws, sampling }).money;
    percentiles.forEach((expected, place) => {
      expectQuantile(cash, [0.1, 0.5, 0.8, 0.9, 0.95][place]!, expected);
    });
  });
});
