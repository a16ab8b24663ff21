import { describe, expect, test } from "vitest";
import { estimateResultSchema } from "../../src/domain/estimate-result.ts";
import { simulate } from "../../src/simulation/simulate.ts";
import { documentWith, partWith } from "./small-document.ts";

const document = documentWith({
  suppliers: [{ id: "plater", name: "Plater", trade: "plating", batchCharge: 20 }],
  parts: [
    partWith("tank", [
      {
        id: "replate",
        method: "replate",
        operations: [{ id: "plate", name: "Plate", trade: "plating", supplier: "plater", cost: 100 }],
      },
    ]),
  ],
});

describe("how much of a result is kept", () => {
  test("200,000 draws keep every line, part and supplier", () => {
    const result = simulate(document, { draws: 200_000 });
    expect(result.engine.detail).toBe("full");
    expect([result.lines.length, result.parts.length, result.suppliers.length]).toEqual([2, 1, 1]);
  });

  test("above 200,000 draws only totals are kept, and the result says so", () => {
    const result = simulate(document, { draws: 200_001 });
    expect(result.engine.detail).toBe("totals");
    expect([result.lines, result.parts, result.suppliers]).toEqual([[], [], []]);
    expect(result.restoration.cash.mean).toEqual({ value: 120, standardError: 0 });
    expect(result.completeProbability).toEqual({ value: 1, standardError: 0 });
    expect(estimateResultSchema.safeParse(result).error).toBeUndefined();
  });
});
