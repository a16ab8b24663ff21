import { describe, expect, test } from "vitest";
import type { Finding } from "../../src/domain/estimate-document.ts";
import type { Uncertain } from "../../src/domain/uncertain.ts";
import { simulation } from "../../src/simulation/simulate.ts";
import { expectMean, expectQuantile, expectSd, expectShareUpTo } from "./column-figures.ts";
import { sumOf } from "./overhead-document.ts";
import { documentWith, partWith } from "./small-document.ts";

const draws = 200_000;

/** Published: moments and percentiles computed with SciPy 1.10. */
const published: { name: string; amount: Uncertain; mean: number; sd: number; percentiles: number[] }[] = [
  {
    name: "PERT(10, 15, 30), the modified beta of weight 4",
    amount: { kind: "pert", low: 10, mode: 15, high: 30 },
    mean: 16.666667,
    sd: 3.563483,
    percentiles: [12.244699, 16.276203, 19.803847, 21.677807],
  },
  {
    name: "Triangular(10, 15, 30)",
    amount: { kind: "triangular", low: 10, mode: 15, high: 30 },
    mean: 18.333333,
    sd: 4.249183,
    percentiles: [13.162278, 17.752551, 22.254033, 24.522774],
  },
];

describe.each(["stratified", "independent"] as const)(
  "published distributions through the whole engine, %s sampling (5 standard errors)",
  (sampling) => {
    const options = { draws, sampling };

    test.each(published)("a cost follows $name", ({ amount, mean, sd, percentiles }) => {
      const { cash } = simulation(sumOf([amount]), options).money;
      expectMean(cash, mean);
      expectSd(cash, sd);
      percentiles.forEach((expected, place) => {
        expectQuantile(cash, [0.1, 0.5, 0.8, 0.9][place]!, expected);
      });
    });

    test("a finding of probability .3 and impact 400 +- 120 has mean 120 and sd 194.730583", () => {
      // Published: event cost, variance p s^2 + p (1 - p) m^2, computed. A lognormal impact, so that none is below 0.
      const finding: Finding = {
        id: "crack",
        name: "Crack",
        trade: "machining",
        probability: 0.3,
        cost: { kind: "lognormal", mean: 400, sd: 120 },
        revealedAt: "machining",
      };
      const { cash } = simulation(documentWith({ findings: [finding] }), options).money;
      expectMean(cash, 120);
      expectSd(cash, 194.730583);
      expectShareUpTo(cash, 0, 0.7);
    });

    test("a hunt at two finds a year waits as the exponential does", () => {
      // Published: P(within 6 months) .632121, median .346574 yr, 95 % 1.497866 yr (computed); a year is 52 weeks.
      const part = partWith("badge", [
        {
          id: "hunt",
          method: "new-old-stock",
          operations: [{ id: "buy", name: "Buy", trade: "parts", cost: 90 }],
          purchase: { findsPerMonth: 2 / 12 },
        },
      ]);
      const { outcomes, money } = simulation(documentWith({ parts: [part] }), options);
      expectMean(outcomes.weeks, 26);
      expectSd(outcomes.weeks, 26);
      expectShareUpTo(outcomes.weeks, 26, 0.632121);
      expectQuantile(outcomes.weeks, 0.5, 0.346574 * 52);
      expectQuantile(outcomes.weeks, 0.95, 1.497866 * 52);
      expect(money.cash.every((cash) => cash === 90)).toBe(true);
    });
  },
);
