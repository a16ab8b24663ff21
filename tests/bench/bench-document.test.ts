import { describe, expect, test } from "vitest";
import { parseEstimateDocument } from "../../src/domain/parse-estimate-document.ts";
import { simulate } from "../../src/simulation/simulate.ts";
import { benchDocument } from "./bench-document.ts";
import { operationsOf } from "../../src/documents/operations-of.ts";

describe("benchDocument()", () => {
  test.each([1, 13, 60, 120])("of %i parts is a valid document", (count) => {
    expect(parseEstimateDocument(benchDocument(count))).not.toHaveProperty("faults");
  });

  test("of 60 parts has 150 operations", () => {
    expect(operationsOf(benchDocument(60)).length).toBe(150);
  });

  test("has failures, hunts given up, findings, departures, weeks and a value that all vary", () => {
    const result = simulate(benchDocument(60), { draws: 320 });
    const shares = result.parts.flatMap(({ routes }) => routes.map(({ share }) => share.value));
    expect(shares.filter((share) => share > 0 && share < 1).length).toBeGreaterThan(30);
    expect(result.suppliers.every(({ departures }) => departures.value > 0)).toBe(true);
    expect(
      result.lines.filter(({ kind, cash }) => kind === "finding" && cash.mean.value > 0).length,
    ).toBeGreaterThan(5);
    expect(result.weeks.sd.value).toBeGreaterThan(0);
    expect(result.value!.gap.sd.value).toBeGreaterThan(0);
  });
});
