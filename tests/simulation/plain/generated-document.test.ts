import { describe, expect, test } from "vitest";
import { estimateDocumentSchema } from "../../../src/domain/estimate-document.ts";
import type { Uncertain } from "../../../src/domain/uncertain.ts";
import { diceOf } from "./generated-dice.ts";
import { generatedDocument } from "./generated-document.ts";
import { plainDraw } from "./plain-draw.ts";
import { lowerTail, upperTail } from "./plain-normal.ts";
import { plainTypicals } from "./plain-typicals.ts";
import type { Source } from "./plain-types.ts";

/** The value at z, roughly: any rising function serves to see that a walk holds together. */
function roughQuantile(uncertain: Uncertain, z: number): number {
  if (typeof uncertain === "number") return uncertain;
  switch (uncertain.kind) {
    case "uniform":
    case "triangular":
    case "pert":
      return uncertain.low + (uncertain.high - uncertain.low) * lowerTail(z);
    case "percentiles": {
      const { floor = 0, p10, p50, p90 } = uncertain;
      const log = (value: number) => Math.log(value - floor);
      const spread = (z < 0 ? log(p50) - log(p10) : log(p90) - log(p50)) / 1.2816;
      return floor + Math.exp(log(p50) + spread * z);
    }
    case "lognormal": {
      if ("mean" in uncertain) return uncertain.mean + uncertain.sd * Math.max(z, -1);
      const middle = (Math.log(uncertain.p10) + Math.log(uncertain.p90)) / 2;
      return Math.exp(middle + ((Math.log(uncertain.p90) - middle) / 1.2816) * z);
    }
    case "normal":
      return Math.max(uncertain.atLeast ?? -Infinity, uncertain.mean + uncertain.sd * z);
    case "log-student":
      return Math.exp(uncertain.location + uncertain.scale * z);
    case "exponential":
      return -uncertain.mean * Math.log(upperTail(z));
    case "sample":
      return uncertain.values.toSorted((one, other) => one - other)[
        Math.min(uncertain.values.length - 1, Math.floor(lowerTail(z) * uncertain.values.length))
      ]!;
    case "discrete": {
      const sorted = uncertain.outcomes.toSorted((one, other) => one.value - other.value);
      let sum = 0;
      for (const { value, probability } of sorted) {
        sum += probability;
        if (probability > 0 && lowerTail(z) <= sum) return value;
      }
      return sorted.at(-1)!.value;
    }
  }
}

/** Standard normal scores that depend on the stream's key and the draw alone. */
function madeUpScores(draw: number): Source {
  const score = (key: string) => {
    let hash = 0x811c9dc5 ^ draw;
    for (const letter of key) hash = Math.imul(hash ^ letter.charCodeAt(0), 0x01000193);
    const dice = diceOf(hash);
    return Math.sqrt(-2 * Math.log(1 - dice.unit())) * Math.cos(2 * Math.PI * dice.unit());
  };
  return { score, quantile: roughQuantile };
}

const seeds = Array.from({ length: 200 }, (_, index) => index + 1);

// Property: for every seed and draw tried.
describe("generatedDocument()", () => {
  test("is the same for the same seed and not for another", () => {
    expect(generatedDocument(7)).toEqual(generatedDocument(7));
    expect(generatedDocument(7)).not.toEqual(generatedDocument(8));
  });

  test("has as many parts as asked for", () => {
    expect(seeds.map((seed) => generatedDocument(seed, 3).parts.length)).toEqual(seeds.map(() => 3));
  });

  test("is what the document format allows", () => {
    for (const seed of seeds) {
      const { error } = estimateDocumentSchema.safeParse(generatedDocument(seed));
      expect(error, `document ${seed}`).toBeUndefined();
    }
  });

  test("uses every kind of distribution, state, outcome and overhead", () => {
    const text = JSON.stringify(seeds.map((seed) => generatedDocument(seed)));
    const kinds = ["uniform", "triangular", "pert", "percentiles", "lognormal", "normal", "log-student"];
    const words = [
      ...kinds,
      "exponential",
      "sample",
      "discrete",
      "done",
      "failed",
      "fitted",
      "present",
      "absent",
    ];
    const fields = [
      "shareOfPrice",
      "shareOfListed",
      "rulesOut",
      "onRoutes",
      "patienceMonths",
      "judgedAfter",
      "shop",
    ];
    expect([...words, ...fields, "rework", "useless"].filter((word) => !text.includes(`"${word}"`))).toEqual(
      [],
    );
  });
});

describe("plainDraw() holds together on made-up documents", () => {
  for (const seed of seeds) {
    const document = generatedDocument(seed);
    test(`lines add up, nothing waits for ever and one owner does all his hours, document ${seed}`, () => {
      for (let draw = 1; draw <= 10; draw += 1) {
        const source = madeUpScores(draw);
        const outcome = plainDraw(document, source);
        const sum = outcome.lines.reduce((total, line) => total + line.cash, 0);
        expect(outcome.toGo).toBeCloseTo(sum, 6);
        expect(Number.isFinite(outcome.allIn + outcome.weeks + outcome.withOwnHours)).toBe(true);
        expect(outcome.complete).toBe(outcome.parts.every((part) => part.route !== undefined));
        for (const { id, cash, departures } of outcome.suppliers) {
          const line = outcome.lines.find((each) => each.kind === "supplier" && each.id === id)!;
          expect(cash).toBeGreaterThanOrEqual(line.cash);
          expect(departures > 0 || cash === 0).toBe(true);
        }
        const perWeek = roughQuantile(
          document.labour.ownHoursPerWeek,
          source.score("labour|ownHoursPerWeek"),
        );
        const ownHours = outcome.ownHours - (document.spent?.ownHours ?? 0);
        expect(outcome.weeks).toBeGreaterThanOrEqual(ownHours / perWeek - 1e-6);
      }
      expect(Number.isFinite(plainTypicals(document, roughQuantile))).toBe(true);
    });
  }
});
