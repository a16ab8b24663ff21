import { describe, expect, test } from "vitest";
import type { Uncertain } from "../../src/domain/uncertain.ts";
import { simulate, simulation } from "../../src/simulation/simulate.ts";
import { expectRankCorrelation, expectSd, sdOf } from "./column-figures.ts";
import { copies, sumOf } from "./overhead-document.ts";

const draws = 200_000;
const triangular: Uncertain = { kind: "triangular", low: 10, mode: 15, high: 30 };
const normal: Uncertain = { kind: "normal", mean: 100, sd: 10 };

const cashOf = (document: Parameters<typeof simulation>[0], sampling: "stratified" | "independent") =>
  simulation(document, { draws, sampling }).money.cash;

describe.each(["stratified", "independent"] as const)(
  "published correlated sums, %s sampling (5 standard errors)",
  (sampling) => {
    // Published: sum of ten Triangular(10, 15, 30), computed with SciPy. Latent correlation of two: their loadings' product.
    test.each([
      { how: "independent", loadings: {}, sd: 13.437096 },
      { how: "loading 1 on one driver", loadings: { common: 1 }, sd: 42.491829 },
      { how: "loading .55, latent .3025", loadings: { common: 0.55 }, sd: 25.716 },
      { how: "latent .3", loadings: { common: Math.sqrt(0.3) }, sd: 25.63797 },
    ])("simulation() reproduces the sd of ten triangulars, $how", ({ loadings, sd }) => {
      expectSd(cashOf(sumOf(copies(10, triangular), loadings), sampling), sd);
    });

    // Published: sqrt(1 + (n - 1) r) times the independent sd, computed; the independent sd of n is 10 sqrt(n).
    test.each([
      { n: 10, r: 0.3, ratio: 1.923538 },
      { n: 30, r: 0.2, ratio: 2.607681 },
      { n: 30, r: 0.3, ratio: 3.114482 },
    ])("simulation() widens the sum of $n equal costs at correlation $r by $ratio", ({ n, r, ratio }) => {
      const document = sumOf(copies(n, normal), { common: Math.sqrt(r) });
      expectSd(cashOf(document, sampling), ratio * 10 * Math.sqrt(n));
    });

    // Published: Gaussian copula, Spearman = (6 / pi) asin(r / 2), whatever the margins; computed.
    test.each([
      { r: 0.1, spearman: 0.095533 },
      { r: 0.3, spearman: 0.287564 },
      { r: 0.5, spearman: 0.482584 },
      { r: 0.8, spearman: 0.785939 },
    ])(
      "simulation() gives two costs of latent correlation $r the rank correlation $spearman",
      ({ r, spearman }) => {
        const loading = Math.sqrt(r);
        const document = sumOf([triangular, { kind: "exponential", mean: 40 }], { common: loading });
        const { lines } = simulation(document, { draws: 40_000, sampling }).outcomes;
        expectRankCorrelation(lines[0]!, lines[1]!, spearman);
        const opposed = sumOf([triangular, triangular], { common: loading });
        opposed.overheads[1]!.drivers = { common: -loading };
        const against = simulation(opposed, { draws: 40_000, sampling }).outcomes.lines;
        expectRankCorrelation(against[0]!, against[1]!, -spearman);
      },
    );
  },
);

describe("percentiles do not add", () => {
  // Published: GAO-20-195G (seen in a digest): the sum of the lines' P80 is not the P80 of the sum.
  test("the lines' P80 add up to more than the P80 of their sum, and to exactly as much when they move as one", () => {
    // Independent: ten P80 of 22.254033 against about 183.33 + .8416 x 13.44 = 194.6.
    const apart = simulate(sumOf(copies(10, triangular)));
    const lines = apart.lines.reduce((sum, { cash }) => sum + cash.p80.value, 0);
    expect(lines).toBeGreaterThan(apart.restoration.cash.p80.value + 20);
    const together = simulate(sumOf(copies(10, triangular), { common: 1 }));
    const sum = together.lines.reduce((total, { cash }) => total + cash.p80.value, 0);
    expect(sum).toBeCloseTo(together.restoration.cash.p80.value, 9);
  });

  test("independent costs narrow the sum: its sd is below the sum of the lines' sds", () => {
    const { outcomes, money } = simulation(sumOf(copies(10, triangular)));
    const together = outcomes.lines.reduce((sum, line) => sum + sdOf(line), 0);
    expect(sdOf(money.cash)).toBeLessThan(together / 2);
  });
});
