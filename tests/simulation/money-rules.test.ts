import { describe, expect, test } from "vitest";
import type { EstimateDocument } from "../../src/domain/estimate-document.ts";
import { simulate } from "../../src/simulation/simulate.ts";
import { documentWith, partWith } from "./small-document.ts";

/** Cash of a document in which nothing is uncertain. */
function certainCash(document: EstimateDocument): number {
  const { restoration, sumOfTypicals } = simulate(document, { draws: 64 });
  expect(restoration.cash.mean.standardError).toBe(0);
  expect(sumOfTypicals).toBe(restoration.cash.mean.value);
  return restoration.cash.mean.value;
}

describe("money that follows rules", () => {
  const plate = (cost: number) => ({
    id: "plate",
    name: "Plate",
    trade: "plating" as const,
    cost,
    supplier: "plater",
  });
  const replate = (id: string, cost: number) =>
    partWith(id, [{ id: "replate", method: "replate", operations: [plate(cost)] }]);

  test("a departure tops up to the minimum before tax, and charge and freight come on top", () => {
    // (max(200, 60 + 70) + 25 + 40) x 1.10 = 291.50; the supplier's own percentage goes before the document's.
    const document = documentWith({
      taxPercent: 20,
      suppliers: [
        {
          id: "plater",
          name: "Plater",
          trade: "plating",
          minimumCharge: 200,
          batchCharge: 25,
          freightPerBatch: 40,
          taxPercent: 10,
        },
      ],
      parts: [replate("a", 60), replate("b", 70)],
    });
    expect(certainCash(document)).toBeCloseTo(291.5, 9);
    const { lines, suppliers } = simulate(document, { draws: 64 });
    const byId = Object.fromEntries(lines.map(({ kind, id, cash }) => [`${kind}/${id}`, cash.mean.value]));
    expect(byId["part/a"]).toBeCloseTo(66, 9);
    expect(byId["part/b"]).toBeCloseTo(77, 9);
    expect(byId["supplier/plater"]).toBeCloseTo((70 + 25 + 40) * 1.1, 9);
    expect(suppliers[0]!.cash.mean.value).toBeCloseTo(291.5, 9);
    expect(certainCash({ ...document, reclaimsTax: true })).toBeCloseTo(265, 9);
  });

  test("lots of one supplier depart apart, each with its minimum", () => {
    const lotted = (id: string, lot: string) =>
      partWith(id, [{ id: "replate", method: "replate", operations: [{ ...plate(50), lot }] }]);
    const document = documentWith({
      suppliers: [{ id: "plater", name: "Plater", trade: "plating", minimumCharge: 200 }],
      parts: [lotted("a", "chrome"), lotted("b", "zinc")],
    });
    expect(certainCash(document)).toBe(400);
  });

  test("shop hours at the trade's rate are cash, own hours are shown apart", () => {
    // 3 pieces x 2 h x 80 + 1.5 h (once a job) x 80 = 600; own 3 x 4 h = 12 h at 15 = 180 beside it.
    const part = partWith(
      "bracket",
      [
        {
          id: "repair",
          method: "repair",
          operations: [
            { id: "weld", name: "Weld", trade: "bodywork", hours: 2, by: "shop" },
            { id: "set-up", name: "Set up", trade: "bodywork", hours: 1.5, by: "shop", per: "job" },
            { id: "dress", name: "Dress", trade: "bodywork", hours: 4, by: "owner" },
          ],
        },
      ],
      { quantity: 3 },
    );
    const document = documentWith({
      labour: { ownHourValue: 15, ownHoursPerWeek: 10, shopRates: { bodywork: 80 } },
      parts: [part],
    });
    expect(certainCash(document)).toBe(600);
    const result = simulate(document, { draws: 64 });
    expect(result.ownHours.mean.value).toBe(12);
    expect(result.shopHours.mean.value).toBe(7.5);
    expect(result.restoration.withOwnHours.mean.value).toBe(780);
  });

  test("in a shop's document bench hours are cash at cost and count once", () => {
    const part = partWith("bracket", [
      {
        id: "repair",
        method: "repair",
        operations: [{ id: "dress", name: "Dress", trade: "bodywork", hours: 4, by: "owner", cost: 10 }],
      },
    ]);
    const document = documentWith({
      taxPercent: 20,
      labour: { ownHourValue: 15, ownHoursPerWeek: 40, shopRates: {} },
      shop: { costRate: 45, chargeRate: 90, partsMarkUpPercent: 20 },
      parts: [part],
    });
    expect(certainCash(document)).toBe(4 * 45 + 12);
    expect(simulate(document, { draws: 64 }).restoration.withOwnHours.mean.value).toBe(4 * 45 + 12);
  });

  test("overheads: a cost with tax, a share of the price, a share of everything listed", () => {
    // Listed 500 x 1.2 = 600. 100 x 1.2 + .05 x 2,000 + .25 x 600 = 120 + 100 + 150; with 700 spent and owed.
    const document = documentWith({
      taxPercent: 20,
      acquisition: { price: 2_000, extras: [{ id: "premium", name: "Premium", shareOfPrice: 0.1 }] },
      spent: { cash: 600, ownHours: 30, firmOrders: 100 },
      parts: [
        partWith("a", [
          { id: "r", method: "repair", operations: [{ id: "o", name: "O", trade: "general", cost: 500 }] },
        ]),
      ],
      overheads: [
        { id: "consumables", name: "Consumables", cost: 100 },
        { id: "insurance", name: "Insurance", shareOfPrice: 0.05 },
        { id: "not-listed", name: "Not listed yet", shareOfListed: 0.25 },
      ],
      value: { finished: 6_000, selling: { commission: 0.1, fixed: 200, months: 3 } },
      carrying: { perMonth: 20 },
    });
    expect(certainCash(document)).toBeCloseTo(700 + 600 + 120 + 100 + 150, 9);
    const result = simulate(document, { draws: 64 });
    expect(result.restoration.toGo.mean.value).toBeCloseTo(970, 9);
    expect(result.ownHours.mean.value).toBe(30);
    expect(result.carrying.mean.value).toBeCloseTo(60, 9);
    expect(result.allIn.mean.value).toBeCloseTo(2_200 + 1_670 + 60, 9);
    expect(result.value!.proceeds.mean.value).toBeCloseTo(5_200, 9);
    expect(result.value!.gap.mean.value).toBeCloseTo(5_200 - 3_930, 9);
    expect(result.value!.recovery!.p50.value).toBeCloseTo(3_000 / 1_670, 9);
    // Price at which the gap is nothing: 1,270 more, each unit of price costing 1 + .10 + .05.
    expect(result.ceiling![0]!.resale.value).toBeCloseTo(2_000 + 1_270 / 1.15, 9);
  });

  test("a fitted route costs nothing wherever it stands, a failed one is skipped, done work is not paid again", () => {
    const cost = (id: string, amount: number, state?: "done") => ({
      id,
      name: id,
      trade: "general" as const,
      cost: amount,
      ...(state && { state }),
    });
    const document = documentWith({
      parts: [
        partWith("fitted", [
          { id: "first", method: "repair", operations: [cost("a", 500)] },
          { id: "second", method: "used", state: "fitted", operations: [cost("b", 900)] },
        ]),
        partWith("failed", [
          { id: "first", method: "repair", state: "failed", operations: [cost("a", 500)] },
          { id: "second", method: "used", operations: [cost("b", 70)] },
        ]),
        partWith("half-done", [
          {
            id: "first",
            method: "replate",
            operations: [cost("strip", 45, "done"), cost("plate", 165)],
            failure: { probability: 1, after: "strip" },
          },
        ]),
      ],
    });
    expect(certainCash(document)).toBe(235);
    expect(
      simulate(document, { draws: 64 }).parts.map(({ routes }) => routes.map(({ share }) => share.value)),
    ).toEqual([[0, 1], [0, 1], [1]]);
  });
});
