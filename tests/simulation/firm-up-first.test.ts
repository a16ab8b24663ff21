import { describe, expect, test } from "vitest";
import type { EstimateDocument, Overhead } from "../../src/domain/estimate-document.ts";
import { firmUpFirstSchema } from "../../src/domain/firm-up-first.ts";
import type { Operation } from "../../src/domain/operation.ts";
import type { Part, Purchase } from "../../src/domain/part.ts";
import type { Uncertain } from "../../src/domain/uncertain.ts";
import { firmUpFirstOf } from "../../src/simulation/firm-up-first.ts";
import { simulate, simulation } from "../../src/simulation/simulate.ts";
import { documentWith, partWith } from "./small-document.ts";

const draws = 10_000;

const operation = (id: string, cost: Uncertain, fields: Partial<Operation> = {}): Operation => ({
  id,
  name: `Work ${id}`,
  trade: "paint",
  cost,
  ...fields,
});
const partOf = (id: string, operations: Operation[], purchase?: Purchase): Part =>
  partWith(id, [
    { id: "way", method: "repair", worksFor: ["tired"], operations, ...(purchase && { purchase }) },
  ]);
const normal = (sd: number): Uncertain => ({ kind: "normal", mean: 1000, sd });

const firmed = (document: EstimateDocument) => firmUpFirstOf(simulation(document, { draws }));
const pathsOf = (document: EstimateDocument) => firmed(document).operations.map(({ path }) => path);

/** A standard normal's P80; its P50 is 0. */
const p80 = 0.841621;

describe("firmUpFirstOf() by hand (five stated standard errors)", () => {
  test("takes a normal cost out of a sum of normal costs", () => {
    // Widths p80 x root of the sum of the variances: all 30, 40, 120: 130; without 120: 50; without 40: 126.49; without 30: 126.49...
    const document = documentWith({
      parts: [
        partOf("a", [operation("x", normal(30)), operation("y", normal(40))]),
        partOf("b", [operation("z", normal(120))]),
      ],
    });
    const { width, operations, draws: kept } = firmed(document);
    expect(kept).toBe(draws);
    expect(Math.abs(width.value - p80 * 130)).toBeLessThan(5 * width.standardError);
    const rest = { "b/way/z": 50, "a/way/y": Math.hypot(30, 120), "a/way/x": Math.hypot(40, 120) };
    expect(operations[0]!.path).toBe("b/way/z");
    for (const { path, narrowing, widthAfter, price } of operations) {
      const expected = rest[path as keyof typeof rest];
      expect(Math.abs(widthAfter.value - p80 * expected)).toBeLessThan(5 * widthAfter.standardError);
      expect(Math.abs(narrowing.value - p80 * (130 - expected))).toBeLessThan(5 * narrowing.standardError);
      expect(narrowing.value).toBeCloseTo(width.value - widthAfter.value, 9);
      expect(Math.abs(price.value - 1000)).toBeLessThan(5 * price.standardError);
    }
  });

  test("says what it is and where it stands", () => {
    const document = documentWith({
      wholeMachine: { after: [operation("fit", normal(50))] },
      parts: [
        partWith("tank", [{ id: "way", method: "repair", operations: [operation("x", normal(30))] }], {
          name: "Fuel tank",
        }),
      ],
      findings: [
        {
          id: "rust",
          name: "Rust inside",
          probability: 1,
          trade: "paint",
          cost: normal(90),
          revealedAt: "blasting",
        },
      ],
    });
    const places = firmed(document).operations.map(({ path, pointer, words }) => ({ path, pointer, words }));
    expect(places).toContainEqual({ path: "whole/fit", pointer: "/wholeMachine/after/0", words: "work fit" });
    expect(places).toContainEqual({
      path: "tank/way/x",
      pointer: "/parts/0/routes/0/operations/0",
      words: "fuel tank: work x",
    });
    expect(places).toContainEqual({
      path: "findings/rust",
      pointer: "/findings/0",
      words: "rust inside: putting it right",
    });
  });
});

/** The document with an operation's cost made a constant. */
function withPrice(document: EstimateDocument, path: string, price: number): EstimateDocument {
  const changed = structuredClone(document);
  const [part, route, id] = path.split("/");
  const works = changed.parts
    .find((one) => one.id === part)!
    .routes.find((one) => one.id === route)!.operations;
  works.find((one) => one.id === id)!.cost = price;
  return changed;
}

describe("firmUpFirstOf() comes to what the document with that price comes to, on the same draws", () => {
  const supplied: Overhead[] = [
    { id: "consumables", name: "Consumables", cost: { kind: "uniform", low: 50, high: 90 } },
    { id: "unlisted", name: "Not listed", shareOfListed: { kind: "uniform", low: 0.1, high: 0.5 } },
  ];
  const document = documentWith({
    parts: [
      partWith("fender", [
        {
          id: "replate",
          method: "replate",
          operations: [
            operation("strip", { kind: "pert", low: 30, mode: 45, high: 90 }),
            operation("plate", { kind: "lognormal", p10: 90, p90: 460 }),
          ],
          failure: { probability: 0.3, after: "strip" },
        },
        {
          id: "buy",
          method: "reproduction",
          operations: [operation("buy", { kind: "uniform", low: 150, high: 400 })],
        },
      ]),
      partOf("tank", [operation("paint", { kind: "percentiles", p10: 350, p50: 650, p90: 1100 })]),
    ],
    overheads: supplied,
  });

  // The price is kept in single precision: 2^-24 of it, and of what follows it.
  test.each(firmed(document).operations.map(({ path }) => path))("%s", (path) => {
    const told = firmed(document).operations.find((one) => one.path === path)!;
    const { p50, p80: high } = simulate(withPrice(document, path, told.price.value), { draws }).restoration
      .cash;
    expect(Math.abs(told.widthAfter.value - (high.value - p50.value))).toBeLessThan(1e-3);
  });

  test("and finds several", () => {
    expect(pathsOf(document)).toEqual(expect.arrayContaining(["tank/way/paint", "fender/replate/plate"]));
  });
});

describe("firmUpFirstOf() leaves out", () => {
  const wide = normal(200);

  test("what is firm, done, or at one price already", () => {
    const document = documentWith({
      labour: { ownHourValue: 0, ownHoursPerWeek: 10, shopRates: { paint: 50 } },
      parts: [
        partOf("a", [operation("firm", wide, { basis: "firm" })]),
        partOf("b", [operation("done", wide, { state: "done" })]),
        partOf("c", [operation("quoted", 500, { basis: "quoted" })]),
        partOf("d", [operation("hours", 0, { hours: 4, by: "shop" })]),
        partOf("e", [operation("open", wide, { basis: "quoted" })]),
      ],
    });
    expect(pathsOf(document)).toEqual(["e/way/open"]);
  });

  test("what is paid again at every try, but not what is paid once the part is right", () => {
    const uniform: Uncertain = { kind: "uniform", low: 0, high: 1000 };
    const outcomes = [
      { probability: 0.5, result: "right" as const },
      { probability: 0.5, result: "useless" as const },
    ];
    const document = documentWith({
      parts: [
        partOf("a", [operation("buy", uniform), operation("paint", uniform)], {
          tries: 5,
          judgedAfter: "buy",
          outcomes,
        }),
        partOf("b", [operation("buy", uniform)], { tries: 1, outcomes }),
      ],
    });
    expect(pathsOf(document).sort()).toEqual(["a/way/paint", "b/way/buy"]);
  });

  test("what a firm price would not narrow, and all but ten", () => {
    const many = Array.from({ length: 14 }, (_, at) => partOf(`p${at}`, [operation("x", normal(100 + at))]));
    expect(firmed(documentWith({ parts: many })).operations).toHaveLength(10);
    for (const { narrowing } of firmed(documentWith({ parts: many })).operations) {
      expect(narrowing.value).toBeGreaterThan(0);
    }
  });

  test("everything where only totals were kept, but not the width", () => {
    const made = simulation(documentWith({ parts: [partOf("a", [operation("x", wide)])] }), {
      draws: 200_001,
    });
    const { operations, width, draws: on } = firmUpFirstOf(made);
    expect(operations).toEqual([]);
    expect(on).toBe(200_001);
    expect(Math.abs(width.value - p80 * 200)).toBeLessThan(5 * width.standardError);
  });
});

test("firmUpFirstOf() is computed on the draws of which it is kept what each operation costs", () => {
  const made = simulation(documentWith({ parts: [partOf("a", [operation("x", normal(100))])] }), {
    draws: 40_000,
  });
  const told = firmUpFirstOf(made);
  expect(told.draws).toBe(made.outcomes.operationDraws.length);
  expect(told.draws).toBeLessThan(40_000);
  expect(told.operations[0]!.widthAfter.value).toBeCloseTo(0, 3);
  expect(firmUpFirstSchema.parse(told)).toEqual(told);
});

test("firmUpFirstOf() of batches of which some kept nothing counts those that did", () => {
  const document = documentWith({ parts: [partOf("a", [operation("x", normal(100))])] });
  const options = {
    draws: "auto",
    tolerance: { shareOfMedian: 1e-5, probability: 1e-5 },
    mostDraws: 30_000,
  } as const;
  const made = simulation(document, options);
  expect(made.starts.length).toBeGreaterThan(17);
  const { width } = firmUpFirstOf(made);
  expect(Math.abs(width.value - p80 * 100)).toBeLessThan(5 * width.standardError);
  expect(width.standardError).toBeGreaterThan(0);
});
