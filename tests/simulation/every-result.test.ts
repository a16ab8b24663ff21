import fc from "fast-check";
import { describe, expect, test } from "vitest";
import type { EstimateDocument } from "../../src/domain/estimate-document.ts";
import {
  estimateResultSchema,
  type EstimateResult,
  type Measured,
} from "../../src/domain/estimate-result.ts";
import { simulate, simulation } from "../../src/simulation/simulate.ts";
import { generatedDocument } from "./plain/generated-document.ts";
import { cases, documentSeeds } from "./properties.ts";
import { measuredIn, numbersIn, objectsIn } from "./walk-result.ts";

/** The fewest allowed, an odd number (two or three draws a replicate) and a round one. */
const drawCounts = fc.constantFrom(32, 33, 320);
const samplings = fc.constantFrom("stratified" as const, "independent" as const);

/** Checks something of the result of every made-up document. */
function everyResult(check: (result: EstimateResult, document: EstimateDocument) => void): void {
  const property = fc.property(documentSeeds, drawCounts, samplings, (seed, draws, sampling) => {
    const document = generatedDocument(seed);
    check(simulate(document, { draws, sampling, seed }), document);
  });
  fc.assert(property, cases(80));
}

/** Within the rounding of sums taken in another order. */
function expectClose(value: number, expected: number, scale: number): void {
  expect(Math.abs(value - expected), `${value}, expected ${expected}`).toBeLessThan(
    1e-9 * (1 + Math.abs(scale)),
  );
}

const sum = (figures: readonly Measured[]) => figures.reduce((total, { value }) => total + value, 0);

describe("every result (property, over made-up documents)", () => {
  test("is what its schema says, and nothing more", () => {
    everyResult((result) => {
      expect(estimateResultSchema.safeParse(result).error).toBeUndefined();
      expect(JSON.parse(JSON.stringify(result))).toEqual(result);
    });
  });

  test("holds finite numbers only, and no standard error below 0", () => {
    everyResult((result) => {
      expect(numbersIn(result).filter(({ value }) => !Number.isFinite(value))).toEqual([]);
      expect(measuredIn(result).filter(({ value }) => value.standardError < 0)).toEqual([]);
    });
  });

  test("has its percentiles in order", () => {
    everyResult((result) => {
      const wide = ["p5", "p10", "p25", "p50", "p75", "p80", "p90", "p95"] as const;
      const narrow = ["p10", "p50", "p80", "p90"] as const;
      const falling = (of: Record<string, Measured>, names: readonly string[]) =>
        names.some((name, place) => place > 0 && of[name]!.value < of[names[place - 1]!]!.value);
      const summaries = objectsIn(result, ...wide).filter(({ value }) => falling(value, wide));
      const ranges = objectsIn(result, ...narrow).filter(({ value }) => falling(value, narrow));
      expect([...summaries, ...ranges]).toEqual([]);
      for (const name of ["restoration", "value", "gap"] as const) {
        const column = result.curve.flatMap((at) => at[name] ?? []);
        expect(column).toEqual(column.toSorted((one, other) => one - other));
      }
    });
  });

  test("has chances and shares of draws within [0, 1], each part's adding up to 1", () => {
    everyResult((result) => {
      for (const { unresolvedProbability, routes } of result.parts) {
        const shares = [unresolvedProbability, ...routes.map(({ share }) => share)];
        expect(shares.every(({ value }) => value >= 0 && value <= 1)).toBe(true);
        expectClose(sum(shares), 1, 1);
      }
      expect(result.completeProbability.value).toBeLessThanOrEqual(1);
    });
  });

  test("has lines whose means add up to the mean to go, and whose shares of its variance add up to 1", () => {
    everyResult(({ lines, restoration }) => {
      const { mean, sd } = restoration.toGo;
      expectClose(sum(lines.map(({ cash }) => cash.mean)), mean.value, mean.value);
      const varies = sd.value > 1e-9 * (1 + Math.abs(mean.value));
      if (varies) expectClose(sum(lines.map(({ varianceShare }) => varianceShare)), 1, 1e3);
    });
  });

  test("has ids that are unique within their kind", () => {
    everyResult(({ lines, parts, suppliers }) => {
      const names = lines.map(({ kind, id }) => `${kind}/${id}`);
      for (const list of [names, parts.map(({ id }) => id), suppliers.map(({ id }) => id)]) {
        expect(new Set(list).size).toBe(list.length);
      }
    });
  });

  test("never lowers a ceiling for more risk accepted, on either terms, and mine is never below resale's", () => {
    everyResult(({ ceiling = [] }) => {
      ceiling.forEach(({ risk, resale, mine }, place) => {
        const before = ceiling[place - 1];
        expect(mine.value).toBeGreaterThanOrEqual(resale.value);
        if (before === undefined) return;
        expect(risk).toBeGreaterThan(before.risk);
        expect(resale.value).toBeGreaterThanOrEqual(before.resale.value);
        expect(mine.value).toBeGreaterThanOrEqual(before.mine.value);
      });
    });
  });

  test("finds regret no likelier than loss, since what is accepted is at least nothing", () => {
    everyResult(({ value }) => {
      if (value) expect(value.regretProbability.value).toBeLessThanOrEqual(value.lossProbability.value);
    });
  });

  test("has a digest that follows the seed and nothing else", () => {
    // A document that leaves nothing to chance gives the same figures whatever the seed, but says which it was.
    fc.assert(
      fc.property(documentSeeds, samplings, (seed, sampling) => {
        const document = generatedDocument(seed);
        const first = simulate(document, { draws: 32, sampling, seed });
        const again = simulate(structuredClone(document), { draws: 32, sampling, seed });
        const other = simulate(document, { draws: 32, sampling, seed: seed + 1 });
        expect(again).toEqual(first);
        expect(other.documentDigest).toBe(first.documentDigest);
        expect(other.resultDigest).not.toBe(first.resultDigest);
      }),
      cases(40),
    );
  });
});

describe("every draw (property, over made-up documents)", () => {
  const everyDraw = (check: (sampled: ReturnType<typeof simulation>, draw: number) => void) =>
    fc.assert(
      fc.property(documentSeeds, drawCounts, (seed, draws) => {
        const sampled = simulation(generatedDocument(seed), { draws, seed });
        for (let draw = 0; draw < draws; draw++) check(sampled, draw);
      }),
      cases(60),
    );

  test("costs what is spent and what is still to go", () => {
    everyDraw(({ program, outcomes, money }, draw) => {
      const { cash = 0, firmOrders = 0 } = program.document.spent ?? {};
      if (money.cash[draw] !== cash + firmOrders + outcomes.toGo[draw]!) throw new Error(`draw ${draw}`);
    });
  });

  test("pays each supplier at least what stands on the supplier's own line", () => {
    everyDraw(({ program, outcomes }, draw) => {
      program.suppliers.forEach(({ line }, position) => {
        const total = outcomes.supplierCash[position]![draw]!;
        if (total < outcomes.lines[line]![draw]! - 1e-9 * total) throw new Error(`draw ${draw}`);
      });
    });
  });

  test("pays suppliers no more than everything, where nothing comes back", () => {
    everyDraw(({ program, outcomes }, draw) => {
      if (JSON.stringify(program.document).includes('"recovers"')) return;
      const paid = outcomes.supplierCash.reduce((total, column) => total + column[draw]!, 0);
      if (paid > outcomes.toGo[draw]! * (1 + 1e-9)) throw new Error(`draw ${draw}`);
    });
  });

  test("costs and takes nothing below 0", () => {
    everyDraw(({ outcomes }, draw) => {
      const columns = [...outcomes.lines, ...outcomes.supplierCash, outcomes.weeks, outcomes.carrying];
      const least = -1e-9 * (1 + outcomes.toGo[draw]!);
      if (columns.some((column) => column[draw]! < least)) throw new Error(`draw ${draw}`);
    });
  });
});
