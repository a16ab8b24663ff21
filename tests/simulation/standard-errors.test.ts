import { describe, expect, test } from "vitest";
import type { EstimateDocument } from "../../src/domain/estimate-document.ts";
import type { Measured, Sampling } from "../../src/domain/estimate-result.ts";
import { simulate, simulation } from "../../src/simulation/simulate.ts";
import { meanOf, sdOf } from "./column-figures.ts";
import { documentWith, partWith } from "./small-document.ts";

const seeds = 200;
const draws = 1_600;

/** A small machine with a failing route, shared prices, a finding, weeks of the owner's and a value. */
const document: EstimateDocument = documentWith({
  drivers: [{ id: "plating", name: "Plating" }],
  labour: {
    ownHourValue: 0,
    ownHoursPerWeek: { kind: "triangular", low: 4, mode: 7, high: 11 },
    shopRates: {},
  },
  parts: ["a", "b", "c"].map((id) =>
    partWith(id, [
      {
        id: "replate",
        method: "replate",
        operations: [
          {
            id: "strip",
            name: "Strip",
            trade: "plating",
            cost: { kind: "pert", low: 30, mode: 45, high: 90 },
          },
          { id: "plate", name: "Plate", trade: "plating", cost: { kind: "lognormal", p10: 90, p90: 260 } },
          {
            id: "fit",
            name: "Fit",
            trade: "general",
            hours: { kind: "pert", low: 2, mode: 4, high: 12 },
            by: "owner",
          },
        ],
        failure: { probability: 0.3, after: "strip" },
      },
      {
        id: "buy",
        method: "reproduction",
        operations: [
          { id: "buy", name: "Buy", trade: "parts", cost: { kind: "uniform", low: 150, high: 400 } },
        ],
      },
    ]),
  ),
  findings: [
    {
      id: "crack",
      name: "Crack",
      trade: "machining",
      probability: 0.25,
      cost: { kind: "lognormal", mean: 300, sd: 90 },
      revealedAt: "machining",
    },
  ],
  budget: { amount: 800, includesPurchase: false },
});

type Figure = "mean cash" | "P80 cash" | "sd of cash" | "mean weeks" | "P80 weeks" | "overrun";

function figuresOf(sampling: Sampling): Map<Figure, Measured[]> {
  const figures = new Map<Figure, Measured[]>();
  const note = (name: Figure, measured: Measured) =>
    figures.set(name, [...(figures.get(name) ?? []), measured]);
  for (let seed = 1; seed <= seeds; seed++) {
    const { restoration, weeks, budget } = simulate(document, { draws, seed, sampling });
    note("mean cash", restoration.cash.mean);
    note("P80 cash", restoration.cash.p80);
    note("sd of cash", restoration.cash.sd);
    note("mean weeks", weeks.mean);
    note("P80 weeks", weeks.p80);
    note("overrun", budget!.overrunProbability);
  }
  return figures;
}

/**
 * Statistical: the real scatter over 200 seeds is itself known to 1 / sqrt(2 x 199), 5 %; four of those are .8 to 1.25.
 * A replicate has 100 draws, so its percentiles are a little less steady than a sixteenth of all draws' would be.
 */
describe.each(["stratified", "independent"] as const)("standard errors of %s sampling", (sampling) => {
  const figures = figuresOf(sampling);

  test.each([...figures.keys()])(
    "the stated error of the %s is that of its scatter from seed to seed",
    (name) => {
      const measured = figures.get(name)!;
      const scatter = sdOf(Float64Array.from(measured, ({ value }) => value));
      const stated = meanOf(Float64Array.from(measured, ({ standardError }) => standardError));
      expect(scatter).toBeGreaterThan(0);
      expect(stated / scatter).toBeGreaterThan(0.8);
      expect(stated / scatter).toBeLessThan(1.25);
    },
  );
});

test.each([32, 33, 1_600])(
  "the error of a mean of %i draws is the sd of the 16 replicates' means, over 4",
  (count) => {
    // By hand: replicate r holds the draws from floor(r N / 16) to floor((r + 1) N / 16).
    const { cash } = simulation(document, { draws: count }).money;
    const means = Array.from({ length: 16 }, (_, replicate) => {
      const bound = (at: number) => Math.floor((at * count) / 16);
      return meanOf(cash.subarray(bound(replicate), bound(replicate + 1)));
    });
    const stated = simulate(document, { draws: count }).restoration.cash.mean;
    expect(stated.standardError).toBeCloseTo(sdOf(Float64Array.from(means)) / 4, 9);
    expect(stated.value).toBeCloseTo(meanOf(cash), 9);
  },
);
