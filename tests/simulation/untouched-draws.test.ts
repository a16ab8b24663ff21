import fc from "fast-check";
import { describe, expect, test } from "vitest";
import type { EstimateDocument, Finding, Supplier } from "../../src/domain/estimate-document.ts";
import type { Operation } from "../../src/domain/operation.ts";
import type { Part } from "../../src/domain/part.ts";
import { simulation } from "../../src/simulation/simulate.ts";
import { generatedDocument } from "./plain/generated-document.ts";
import { cases, documentSeeds } from "./properties.ts";

/** Odd, and more than one draw a replicate. */
const draws = 77;

type Columns = Map<string, Float64Array>;

/** Columns of every line by name, but of the overheads that are a share of the others. */
function linesOf(document: EstimateDocument): Columns {
  const { program, outcomes } = simulation(document, { draws, seed: 5 });
  const shares = new Set(
    document.overheads.filter((each) => each.shareOfListed !== undefined).map(({ id }) => id),
  );
  return new Map(
    program.lines.flatMap(({ kind, id }, position) =>
      kind === "overhead" && shares.has(id) ? [] : [[`${kind}/${id}`, outcomes.lines[position]!]],
    ),
  );
}

function expectSameBits(before: Columns, after: Columns, except: readonly string[] = []): void {
  for (const [name, column] of before) {
    if (except.includes(name)) continue;
    const other = after.get(name)!;
    const place = column.findIndex((value, draw) => !Object.is(value, other[draw]));
    expect(place, `${name}: first draw that moved`).toBe(-1);
  }
}

/** Adds an entry at a place in [0, 1] of a list. */
function inserted<T>(list: readonly T[], place: number, entry: T): T[] {
  return list.toSpliced(Math.round(place * list.length), 0, entry);
}

const addedSupplier: Supplier = {
  id: "added",
  name: "Added",
  trade: "plating",
  minimumCharge: 150,
  batchCharge: { kind: "pert", low: 20, mode: 30, high: 60 },
  leadWeeks: { kind: "uniform", low: 2, high: 6 },
};

/** A part that draws everything a part can: its band, a failure, a hunt, outcomes, costs, hours and weeks. */
function addedPart(supplier: string | undefined): Part {
  const work = (id: string): Operation => ({
    id,
    name: id,
    trade: "plating",
    cost: { kind: "lognormal", p10: 40, p90: 120 },
    ...(supplier === undefined
      ? { hours: { kind: "uniform", low: 1, high: 9 }, by: "owner" }
      : { supplier, lot: "chrome" }),
  });
  return {
    id: "added",
    name: "Added",
    class: "bracket",
    condition: { odds: { sound: 0.3, poor: 0.4, missing: 0.3 } },
    routes: [
      {
        id: "replate",
        method: "replate",
        operations: [work("strip"), work("plate")],
        failure: { probability: 0.4, after: "strip" },
      },
      {
        id: "buy",
        method: "used",
        operations: [{ ...work("buy"), trade: "parts" }],
        purchase: {
          findsPerMonth: 1,
          patienceMonths: 4,
          tries: 3,
          outcomes: [
            { probability: 0.5, result: "right" },
            { probability: 0.5, result: "useless", recovers: 0.5 },
          ],
        },
      },
    ],
  };
}

const addedFinding = (part: Part | undefined): Finding => ({
  id: "added",
  name: "Added",
  trade: "bodywork",
  probability: 0.5,
  cost: { kind: "pert", low: 50, mode: 80, high: 300 },
  revealedAt: "strip-down",
  ...(part && { part: part.id }),
});

// Property: streams are keyed by path, never by position.
describe("adding to a document leaves every other line's draws alone, bit for bit", () => {
  const anywhere = fc.double({ min: 0, max: 1, noNaN: true });

  test.each([
    { what: "a part without supplier", supplier: undefined },
    { what: "a part with a supplier of its own", supplier: "added" },
  ])("$what", ({ supplier }) => {
    fc.assert(
      fc.property(documentSeeds, anywhere, (seed, place) => {
        const document = generatedDocument(seed);
        const more = {
          ...document,
          ...(supplier !== undefined && { suppliers: inserted(document.suppliers, place, addedSupplier) }),
          parts: inserted(document.parts, place, addedPart(supplier)),
        };
        expectSameBits(linesOf(document), linesOf(more));
      }),
      cases(60),
    );
  });

  test("a finding, of no part or of one", () => {
    fc.assert(
      fc.property(documentSeeds, anywhere, fc.boolean(), (seed, place, ofPart) => {
        const document = generatedDocument(seed);
        const finding = addedFinding(ofPart ? document.parts[0] : undefined);
        const more = { ...document, findings: inserted(document.findings, place, finding) };
        expectSameBits(linesOf(document), linesOf(more));
      }),
      cases(60),
    );
  });

  test("an operation at the end of a route: every line but its part's", () => {
    fc.assert(
      fc.property(documentSeeds, anywhere, (seed, place) => {
        const document = structuredClone(generatedDocument(seed, 4));
        const part = document.parts[Math.floor(place * 3.999)]!;
        const before = linesOf(document);
        const added: Operation = {
          id: "added",
          name: "Added",
          trade: "general",
          cost: { kind: "exponential", mean: 70 },
        };
        const route = part.routes.at(-1);
        // Judged where it was: a rework then still follows the same operation, and a visit is not cut in two.
        if (route?.purchase) route.purchase.judgedAfter ??= route.operations.at(-1)!.id;
        route?.operations.push(added);
        expectSameBits(before, linesOf(document), [`part/${part.id}`]);
      }),
      cases(60),
    );
  });

  test("a supplier nobody uses and a driver nothing loads on: the whole of every column", () => {
    fc.assert(
      fc.property(documentSeeds, anywhere, (seed, place) => {
        const document = generatedDocument(seed);
        const more = {
          ...document,
          suppliers: inserted(document.suppliers, place, addedSupplier),
          drivers: inserted(document.drivers, place, { id: "moon", name: "Moon" }),
        };
        expectSameBits(linesOf(document), linesOf(more));
        const one = simulation(document, { draws });
        const other = simulation(more, { draws });
        for (const name of ["toGo", "weeks", "ownHours", "shopHours", "carrying", "proceeds"] as const) {
          expectSameBits(new Map([[name, one.outcomes[name]]]), new Map([[name, other.outcomes[name]]]));
        }
      }),
      cases(60),
    );
  });

  test("a part added changes the draws of nothing but totals, whose difference is the part's own cash", () => {
    // Only where no overhead is a share of the rest.
    fc.assert(
      fc.property(documentSeeds, (seed) => {
        const document = { ...generatedDocument(seed), overheads: [] };
        const more = { ...document, parts: [...document.parts, addedPart(undefined)] };
        const one = simulation(document, { draws });
        const other = simulation(more, { draws });
        const own = other.outcomes.lines[document.parts.length]!;
        own.forEach((cash, draw) => {
          expect(other.outcomes.toGo[draw]! - one.outcomes.toGo[draw]!).toBeCloseTo(cash, 6);
        });
      }),
      cases(40),
    );
  });
});
