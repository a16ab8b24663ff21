import { describe, expect, test } from "vitest";
import type { EstimateDocument, Finding } from "../../src/domain/estimate-document.ts";
import type { Measured } from "../../src/domain/estimate-result.ts";
import { simulate } from "../../src/simulation/simulate.ts";
import { documentWith, partWith } from "./small-document.ts";

const draws = 32;

/**
 * Published: one-sided 95 % bound on a chance never met in n draws, 1 - .05^(1/n), about 3 / n (Clopper & Pearson 1934);
 * n = 32: .0893682. Student's t, 15 degrees of freedom, 97.5 %: 2.131450. Both computed with SciPy 1.10.
 */
const boundedError = 0.0893682 / 2.13145;
const certainly = (value: number): Measured => ({ value, standardError: 0 });

function expectBounded(measured: Measured, value: number): void {
  expect(measured.value).toBe(value);
  expect(measured.standardError).toBeCloseTo(boundedError, 6);
}

/** So rare that no draw of these tests meets it, yet possible. */
const rare = 1e-6;
const crack = (fields: Partial<Finding>): Finding => ({
  id: "crack",
  name: "Crack",
  trade: "machining",
  probability: rare,
  cost: 5_000,
  revealedAt: "machining",
  ...fields,
});
const budget = { amount: 1_000, includesPurchase: false };
const resultOf = (fields: Partial<EstimateDocument>) => simulate(documentWith(fields), { draws });

test("a part bought already is on the machine for certain, however impatient the hunt", () => {
  const part = partWith("badge", [
    {
      id: "used",
      method: "used",
      operations: [{ id: "buy", name: "Buy", trade: "parts", cost: 50, state: "done" }],
      purchase: { findsPerMonth: 1, patienceMonths: 0 },
    },
  ]);
  expect(resultOf({ parts: [part] }).completeProbability).toEqual(certainly(1));
});

describe("a chance of 0 or 1 that draws alone suggest carries the binomial bound", () => {
  const varying = [{ id: "cost", name: "Cost", cost: { kind: "uniform" as const, low: 100, high: 200 } }];

  test("overrun never seen, though possible", () => {
    const found = resultOf({ overheads: varying, findings: [crack({})], budget });
    expectBounded(found.budget!.overrunProbability, 0);
  });

  test("a rare event in a document where nothing else varies", () => {
    expectBounded(resultOf({ findings: [crack({})], budget }).budget!.overrunProbability, 0);
  });

  test("loss and regret always seen, though not certain", () => {
    const { value } = resultOf({
      overheads: varying,
      value: { finished: { kind: "lognormal", mean: 50, sd: 1 }, selling: { commission: 0 } },
    });
    expectBounded(value!.lossProbability, 1);
    expectBounded(value!.regretProbability, 1);
  });

  test("a rare failure: the fallback's share, the first route's, and completeness", () => {
    const part = partWith("tank", [
      {
        id: "repair",
        method: "repair",
        operations: [{ id: "weld", name: "Weld", trade: "bodywork", cost: 100 }],
        failure: { probability: rare, after: "weld" },
      },
    ]);
    const [tank] = resultOf({ parts: [part] }).parts;
    expectBounded(tank!.routes[0]!.share, 1);
    expectBounded(tank!.unresolvedProbability, 0);
    expectBounded(resultOf({ parts: [part] }).completeProbability, 1);
  });

  test("a hunt with patience and a rare band", () => {
    const hunted = partWith("badge", [
      {
        id: "hunt",
        method: "used",
        operations: [{ id: "buy", name: "Buy", trade: "parts", cost: 10 }],
        purchase: { findsPerMonth: 1_000, patienceMonths: 1_000 },
      },
    ]);
    expectBounded(resultOf({ parts: [hunted] }).parts[0]!.unresolvedProbability, 0);
    const odds = { sound: 1 - rare, missing: rare };
    const kept = partWith("lamp", [{ id: "reuse", method: "reuse", operations: [] }], {
      condition: { odds },
    });
    expectBounded(resultOf({ parts: [kept] }).parts[0]!.unresolvedProbability, 0);
  });
});

describe("a chance of 0 or 1 that the document makes certain carries no error", () => {
  test("nothing varies", () => {
    const found = resultOf({ overheads: [{ id: "cost", name: "Cost", cost: 900 }], budget });
    expect(found.budget!.overrunProbability).toEqual(certainly(0));
  });

  test("findings that are settled, whatever their chance was", () => {
    const absent = resultOf({ findings: [crack({ state: "absent" })], budget });
    expect(absent.budget!.overrunProbability).toEqual(certainly(0));
    const present = resultOf({ findings: [crack({ state: "present" })], budget });
    expect(present.budget!.overrunProbability).toEqual(certainly(1));
  });

  test("routes that cannot fail, cannot work or are on the machine already", () => {
    const operations = [
      { id: "o", name: "O", trade: "general" as const, cost: { kind: "exponential" as const, mean: 5 } },
    ];
    const { parts, completeProbability } = resultOf({
      parts: [
        partWith("sure", [
          { id: "first", method: "repair", operations },
          { id: "second", method: "used", operations },
        ]),
        partWith("gone", [{ id: "first", method: "repair", operations }], { condition: { band: "missing" } }),
        partWith("there", [
          { id: "first", method: "repair", operations },
          { id: "second", method: "used", state: "fitted", operations },
        ]),
      ],
    });
    expect(parts.map(({ routes }) => routes.map(({ share }) => share))).toEqual([
      [certainly(1), certainly(0)],
      [certainly(0)],
      [certainly(0), certainly(1)],
    ]);
    expect(parts.map((part) => part.unresolvedProbability)).toEqual([0, 1, 0].map(certainly));
    expect(completeProbability).toEqual(certainly(0));
  });
});
