import { describe, expect, test } from "vitest";
import type { EstimateDocument, Finding } from "../../src/domain/estimate-document.ts";
import type { Operation } from "../../src/domain/operation.ts";
import type { Part } from "../../src/domain/part.ts";
import type { Uncertain } from "../../src/domain/uncertain.ts";
import { simulation } from "../../src/simulation/simulate.ts";
import { expectRankCorrelation } from "./column-figures.ts";
import { documentWith, partWith } from "./small-document.ts";

const draws = 40_000;
const amount: Uncertain = { kind: "uniform", low: 50, high: 150 };

/**
 * Published: Gaussian copula, Spearman = (6 / pi) asin(r / 2), with r the product of two default loadings, .55 x .55
 * (trade and pace) by design. Computed: .289979.
 */
const sharedTrade = 0.289979;
/**
 * Published: two even chances over standard normals of correlation r are both met with probability 1/4 + asin(r) / (2 pi)
 * (Sheppard 1899, from memory), so their correlation is (2 / pi) asin(r); r = .6 x .6 (storage): .234447, computed.
 */
const sharedStorage = 0.234447;

const declared = ["storage", "pace", "plating", "general"].map((id) => ({ id, name: id }));
const plating = (fields: Partial<Operation>): Operation => ({
  id: "plate",
  name: "Plate",
  trade: "plating",
  ...fields,
});
const repaired = (id: string, fields: Partial<Operation>, more: Partial<Part> = {}): Part =>
  partWith(id, [{ id: "repair", method: "repair", operations: [plating(fields)] }], more);
const finding = (id: string, fields: Partial<Finding>): Finding => ({
  id,
  name: id,
  trade: "plating",
  probability: 1,
  revealedAt: "strip-down",
  ...fields,
});
const labour = { ownHourValue: 0, ownHoursPerWeek: 10, shopRates: { plating: 60, general: 60 } };
const plater = { id: "plater", name: "Plater", trade: "plating" as const };
/** Even odds between a band it is kept in for nothing and one in which it costs. */
const evenOdds = (id: string): Part =>
  partWith(
    id,
    [
      { id: "reuse", method: "reuse", worksFor: ["sound"], operations: [] },
      { id: "repair", method: "repair", operations: [plating({ cost: 100 })] },
    ],
    { condition: { odds: { sound: 0.5, poor: 0.5 } } },
  );

interface Case {
  name: string;
  fields: Partial<EstimateDocument>;
  expected: number;
  /** What the second column is, where it is not the second line. */
  against?: "weeks";
}

const cases: Case[] = [
  {
    name: "costs of two operations of one trade",
    fields: { parts: [repaired("a", { cost: amount }), repaired("b", { cost: amount })] },
    expected: sharedTrade,
  },
  {
    name: "the cost of an operation and its own lead",
    fields: { parts: [repaired("a", { cost: amount, leadWeeks: amount })] },
    expected: sharedTrade,
    against: "weeks",
  },
  {
    name: "the cost of an operation and a supplier's charge",
    fields: {
      suppliers: [{ ...plater, batchCharge: amount }],
      parts: [repaired("a", { cost: amount, supplier: "plater" })],
    },
    expected: sharedTrade,
  },
  {
    name: "the cost of an operation and a supplier's freight",
    fields: {
      suppliers: [{ ...plater, freightPerBatch: amount }],
      parts: [repaired("a", { cost: amount, supplier: "plater" })],
    },
    expected: sharedTrade,
  },
  {
    name: "the cost of an operation and a supplier's lead",
    fields: {
      suppliers: [{ ...plater, leadWeeks: amount }],
      parts: [repaired("a", { cost: amount, supplier: "plater" })],
    },
    expected: sharedTrade,
    against: "weeks",
  },
  {
    name: "the cost of an operation and that of a finding",
    fields: { parts: [repaired("a", { cost: amount })], findings: [finding("f", { cost: amount })] },
    expected: sharedTrade,
  },
  {
    name: "the cost of a finding and its own lead",
    fields: { findings: [finding("f", { cost: amount, leadWeeks: amount })] },
    expected: sharedTrade,
    against: "weeks",
  },
  {
    name: "hours of two operations",
    fields: {
      parts: [repaired("a", { hours: amount, by: "shop" }), repaired("b", { hours: amount, by: "shop" })],
    },
    expected: sharedTrade,
  },
  {
    name: "hours of an operation and of a finding of another trade",
    fields: {
      parts: [repaired("a", { hours: amount, by: "shop" })],
      findings: [finding("f", { trade: "general", hours: amount, by: "shop" })],
    },
    expected: sharedTrade,
  },
  {
    name: "the condition of two parts",
    fields: { parts: [evenOdds("a"), evenOdds("b")] },
    expected: sharedStorage,
  },
  {
    name: "the condition of a part and a finding",
    fields: { parts: [evenOdds("a")], findings: [finding("f", { probability: 0.5, cost: 100 })] },
    expected: sharedStorage,
  },
  {
    name: "costs of two trades",
    fields: { parts: [repaired("a", { cost: amount }), repaired("b", { cost: amount, trade: "general" })] },
    expected: 0,
  },
  {
    name: "the hours of an operation and the cost of another of its trade",
    fields: { parts: [repaired("a", { hours: amount, by: "shop" }), repaired("b", { cost: amount })] },
    expected: 0,
  },
  {
    name: "a cost independent on purpose and another of its trade",
    fields: { parts: [repaired("a", { cost: amount, drivers: {} }), repaired("b", { cost: amount })] },
    expected: 0,
  },
  {
    name: "costs of one trade in a document that does not declare its driver",
    fields: { drivers: [], parts: [repaired("a", { cost: amount }), repaired("b", { cost: amount })] },
    expected: 0,
  },
  {
    name: "two overheads",
    fields: { overheads: ["a", "b"].map((id) => ({ id, name: id, cost: amount })) },
    expected: 0,
  },
];

// Statistical: 5 standard errors of a rank correlation, at most .025 at this number of draws.
describe("default loadings, seen as rank correlations", () => {
  test.each(cases)("$name: $expected", ({ fields, expected, against }) => {
    const document = documentWith({ drivers: declared, labour, ...fields });
    const { outcomes } = simulation(document, { draws });
    expectRankCorrelation(outcomes.lines[0]!, against ? outcomes.weeks : outcomes.lines[1]!, expected);
  });

  test("failures share nothing unless they say so", () => {
    // Two even chances; loading .6 each on one driver: .234447 as above.
    const failing = (id: string, drivers?: Record<string, number>): Part =>
      partWith(id, [
        {
          id: "repair",
          method: "repair",
          operations: [plating({})],
          failure: { probability: 0.5, after: "plate", ...(drivers && { drivers }) },
        },
        { id: "buy", method: "used", operations: [plating({ cost: 100 })] },
      ]);
    const linesOf = (drivers?: Record<string, number>) =>
      simulation(
        documentWith({
          drivers: [...declared, { id: "luck", name: "Luck" }],
          parts: [failing("a", drivers), failing("b", drivers)],
        }),
        { draws },
      ).outcomes.lines;
    const apart = linesOf();
    expectRankCorrelation(apart[0]!, apart[1]!, 0);
    const shared = linesOf({ luck: 0.6 });
    expectRankCorrelation(shared[0]!, shared[1]!, sharedStorage);
    expect(shared[0]!.some((cash) => cash > 0)).toBe(true);
  });
});
