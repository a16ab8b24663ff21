import { describe, expect, test } from "vitest";
import { parseEstimateDocument } from "../../src/domain/parse-estimate-document.ts";
import { simulate } from "../../src/simulation/simulate.ts";
import { operationsOf } from "../../src/documents/operations-of.ts";
import { plainDocument } from "./plain-document.ts";

/** How often each field holds something uncertain. */
function uncertainFields(json: unknown, counts: Record<string, number> = {}): Record<string, number> {
  for (const [field, value] of Object.entries(json as object)) {
    if (typeof value !== "object" || value === null) continue;
    if ("kind" in value && field !== "vehicle") counts[field] = (counts[field] ?? 0) + 1;
    else uncertainFields(value, counts);
  }
  return counts;
}

describe("plainDocument()", () => {
  test.each([2, 15, 60, 200, 600])("of %i parts is a valid document", (count) => {
    expect(parseEstimateDocument(plainDocument(count))).not.toHaveProperty("faults");
  });

  test("of 60 parts draws 276 numbers: 150 costs, 60 leads, the value, 60 failures, 5 drivers", () => {
    const document = plainDocument(60);
    expect(uncertainFields(document)).toEqual({ cost: 150, leadWeeks: 60, finished: 1 });
    const routes = document.parts.flatMap((part) => part.routes);
    expect(routes.filter(({ failure }) => failure !== undefined).length).toBe(60);
    expect(document.drivers.length).toBe(5);
    expect(JSON.stringify(document).match(/"pert"/g)!.length).toBe(45);
  });

  test.each([60, 200, 600])("of %i parts has 2.5 operations a part", (count) => {
    expect(operationsOf(plainDocument(count)).length).toBe(2.5 * count);
  });

  test("has fallbacks, departures, weeks and a gap that all vary", () => {
    const result = simulate(plainDocument(60), { draws: 320 });
    const shares = result.parts.flatMap(({ routes }) => routes.map(({ share }) => share.value));
    expect(shares.every((share) => share > 0 && share < 1)).toBe(true);
    expect(result.suppliers.every(({ departures }) => departures.value >= 1)).toBe(true);
    expect(result.weeks.sd.value).toBeGreaterThan(0);
    expect(result.value!.gap.sd.value).toBeGreaterThan(0);
  });
});
