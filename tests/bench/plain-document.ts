import type { EstimateDocument, Supplier } from "../../src/domain/estimate-document.ts";
import { plainPart } from "./plain-part.ts";

const suppliers: Supplier[] = [
  {
    id: "plater",
    name: "Plater",
    trade: "plating",
    minimumCharge: 420,
    batchCharge: 25,
    freightPerBatch: 35,
    leadWeeks: 5,
  },
  { id: "painter", name: "Painter", trade: "paint", minimumCharge: 400, freightPerBatch: 20, leadWeeks: 4 },
  { id: "coater", name: "Coater", trade: "powder", minimumCharge: 380, batchCharge: 15, leadWeeks: 1.5 },
];

/**
 * Makes the plain document speed is stated for: `partCount` parts of 2.5 operations, each of which may fail and then has
 * a fallback. At 60 parts the chance in a draw is 276 numbers: 150 costs (45 of them PERT, which only exact quantiles
 * find slow, the others lognormal), 60 failures, 60 lead times, 5 drivers and the value; all else is certain.
 *
 * @param partCount an even number makes exactly 2.5 operations a part; money, budget and value do not grow with it
 */
export function plainDocument(partCount: number): EstimateDocument {
  return {
    format: "restoration-estimate/1",
    title: `Plain machine of ${partCount} parts`,
    currency: "USD",
    pricesAsOf: "2026-06",
    vehicle: { kind: "motorcycle", make: "Merrowdale", model: "Tarn 350", year: 1961 },
    acceptableNetCost: 4_000,
    budget: { amount: 10_000, includesPurchase: false },
    acquisition: { price: 1_800 },
    taxPercent: 5,
    labour: { ownHourValue: 15, ownHoursPerWeek: 7, shopRates: {} },
    drivers: ["plating", "paint", "powder", "parts", "market"].map((id) => ({ id, name: id })),
    suppliers,
    parts: Array.from({ length: partCount }, (_, place) => plainPart(place)),
    findings: [],
    overheads: [],
    value: {
      finished: { kind: "lognormal", p10: 9_000, p90: 17_000 },
      drivers: { market: 0.5 },
      selling: { commission: 0.08 },
    },
  };
}
