import { describe, expect, test } from "vitest";
import type { Outcome, Part } from "../../src/domain/part.ts";
import type { EstimateResult } from "../../src/domain/estimate-result.ts";
import { simulate } from "../../src/simulation/simulate.ts";
import { documentWith, partWith } from "./small-document.ts";

const draws = 10_000;

/** Statistical tolerance: five standard errors, as the result states them, plus rounding. */
function expectMean(result: EstimateResult, expected: number): void {
  const { value, standardError } = result.restoration.cash.mean;
  expect(standardError).toBeLessThan(expected / 50);
  expect(Math.abs(value - expected)).toBeLessThan(5 * standardError + 1e-6);
}

describe("hand-worked trees", () => {
  test("exhaust pipe: .7 x 210 + .3 x (45 + 190 + 35 + .25 x 60) = 232.50", () => {
    const pipe = partWith("exhaust-pipe", [
      {
        id: "replate",
        method: "replate",
        operations: [
          { id: "strip", name: "Strip", trade: "plating", cost: 45 },
          { id: "plate", name: "Plate", trade: "plating", cost: 165 },
        ],
        failure: { probability: 0.3, after: "strip" },
      },
      {
        id: "reproduction",
        method: "reproduction",
        operations: [
          { id: "buy", name: "Buy", trade: "parts", cost: 190 },
          { id: "freight", name: "Freight", trade: "freight", cost: 35 },
        ],
        purchase: {
          judgedAfter: "freight",
          outcomes: [
            { probability: 0.75, result: "right" },
            {
              probability: 0.25,
              result: "rework",
              operations: [{ id: "fettle", name: "Fettle", trade: "general", cost: 60 }],
            },
          ],
        },
      },
    ]);
    const result = simulate(documentWith({ parts: [pipe] }), { draws });
    expectMean(result, 232.5);
    expect(result.sumOfTypicals).toBe(210);
    const [replate, reproduction] = result.parts[0]!.routes;
    expect(replate!.share.value).toBeCloseTo(0.7, 2);
    expect(reproduction!.share.value).toBeCloseTo(0.3, 2);
    // The four outcomes by enumeration: 210 (.7), 270 (.225), 330 (.075).
    const { p10, p80, p90, p95 } = result.restoration.cash;
    expect([p10.value, p80.value, p90.value, p95.value]).toEqual([210, 270, 270, 330]);
  });

  test("new-old-stock lid: 187 + .3 x 150 + .15 x (310 - 82.50) = 266.125", () => {
    const lid = partWith("lid", [
      {
        id: "new-old-stock",
        method: "new-old-stock",
        operations: [
          { id: "buy", name: "Buy", trade: "parts", cost: 165 },
          { id: "freight", name: "Freight", trade: "freight", cost: 22 },
        ],
        purchase: {
          outcomes: [
            { probability: 0.55, result: "right" },
            {
              probability: 0.3,
              result: "rework",
              operations: [{ id: "repaint", name: "Repaint", trade: "paint", cost: 150 }],
            },
            { probability: 0.15, result: "useless", recovers: 0.5 },
          ],
        },
      },
      { id: "used", method: "used", operations: [{ id: "buy", name: "Buy", trade: "parts", cost: 310 }] },
    ]);
    const result = simulate(documentWith({ parts: [lid] }), { draws });
    expectMean(result, 266.125);
    expect(result.sumOfTypicals).toBe(187);
    expect(result.completeProbability).toEqual({ value: 1, standardError: 0 });
  });

  test("three tries at a used part: one good in two, unresolved one time in eight", () => {
    // Expected tries 1 + 1/2 + 1/4 = 1.75 at 80 each; useless ones return a quarter: (1/2 + 1/4 + 1/8) x 20 = 17.50.
    const part = partWith("tank", [
      {
        id: "used",
        method: "used",
        operations: [{ id: "buy", name: "Buy", trade: "parts", cost: 80 }],
        purchase: {
          tries: 3,
          outcomes: [
            { probability: 0.5, result: "right" },
            { probability: 0.5, result: "useless", recovers: 0.25 },
          ],
        },
      },
    ]);
    const result = simulate(documentWith({ parts: [part] }), { draws });
    expectMean(result, 140 - 17.5);
    const { value, standardError } = result.parts[0]!.unresolvedProbability;
    expect(Math.abs(value - 0.125)).toBeLessThan(5 * standardError);
  });

  test("a hunt given up is not paid: found within 6 months .632121 of the time at 2 a year", () => {
    // Source: exponential waiting, computed (see the numeric tests): P(within 6 months) .632121.
    const part = partWith("badge", [
      {
        id: "hunt",
        method: "new-old-stock",
        operations: [{ id: "buy", name: "Buy", trade: "parts", cost: 100 }],
        purchase: { findsPerMonth: 1 / 6, patienceMonths: 6 },
      },
      { id: "leave", method: "leave", operations: [] },
    ]);
    // Independent draws: with one event the strata give the same count in every replicate, and no standard error.
    const result = simulate(documentWith({ parts: [part] }), { draws, sampling: "independent" });
    expectMean(result, 63.2121);
    expect(result.weeks.p95.value).toBeCloseTo(26, 9);
  });

  test("the typical course: right where that can be, else rework, and useless only where nothing else can be", () => {
    const bought = (id: string, outcomes: Outcome[]) =>
      partWith(id, [
        {
          id: "used",
          method: "used",
          operations: [{ id: "buy", name: "Buy", trade: "parts", cost: 50 }],
          purchase: { outcomes },
        },
        {
          id: "leave",
          method: "leave",
          operations: [{ id: "trim", name: "Trim", trade: "general", cost: 9 }],
        },
      ]);
    const fettle = [{ id: "fettle", name: "Fettle", trade: "general" as const, cost: 7 }];
    const always = (id: string, result: Outcome["result"]) =>
      bought(id, [{ probability: 1, result, ...(result === "rework" ? { operations: fettle } : {}) }]);
    const typical = (...parts: Part[]) => simulate(documentWith({ parts }), { draws: 64 }).sumOfTypicals;
    expect(typical(always("a", "right"))).toBe(50);
    expect(typical(always("a", "rework"))).toBe(57);
    expect(typical(always("a", "useless"))).toBe(59);
    expect(
      typical(
        bought("a", [
          { probability: 0.9, result: "useless" },
          { probability: 0.1, result: "right" },
        ]),
      ),
    ).toBe(50);
  });
});
