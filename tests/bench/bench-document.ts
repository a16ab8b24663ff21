import type { EstimateDocument, Finding, Supplier } from "../../src/domain/estimate-document.ts";
import type { Uncertain } from "../../src/domain/uncertain.ts";
import { own, pert } from "./bench-operations.ts";
import { benchPart } from "./bench-part.ts";

const weeks = (p10: number, p90: number): Uncertain => ({ kind: "lognormal", p10, p90 });

const suppliers: Supplier[] = [
  {
    id: "plater",
    name: "Plater",
    trade: "plating",
    minimumCharge: 150,
    batchCharge: 25,
    freightPerBatch: pert(20, 30, 60),
    leadWeeks: weeks(4, 14),
  },
  { id: "painter", name: "Painter", trade: "paint", minimumCharge: 200, leadWeeks: weeks(3, 12) },
  {
    id: "coater",
    name: "Coater",
    trade: "powder",
    minimumCharge: 90,
    batchCharge: 15,
    leadWeeks: weeks(1, 4),
  },
  {
    id: "trimmer",
    name: "Trimmer",
    trade: "upholstery",
    freightPerBatch: pert(15, 20, 40),
    leadWeeks: weeks(2, 6),
  },
];

const driverIds = ["storage", "pace", "plating", "paint", "powder", "parts", "machining", "market"];

/** Every fourth part may hide something: money, the owner's hours, or a route that no longer works. */
function findingOf(place: number, part: EstimateDocument["parts"][number]): Finding {
  const first = part.routes[0]!.id;
  return {
    id: `finding-${place + 1}`,
    name: `Finding ${place + 1}`,
    probability: 0.1 + (place % 5) / 20,
    trade: "machining",
    cost: pert(20, 45, 160),
    leadWeeks: weeks(0.5, 2),
    revealedAt: "strip-down",
    part: part.id,
    ...(place % 3 === 0 && part.routes.length > 1 && { rulesOut: [first] }),
  };
}

/**
 * Makes a document like that of a whole motorcycle: 60 parts make 150 operations, with failures, hunts, departures of four
 * suppliers, lead times, findings, shared drivers and a value.
 *
 * @param partCount 1 or more; money, budget and value do not grow with it
 */
export function benchDocument(partCount: number): EstimateDocument {
  const parts = Array.from({ length: partCount }, (_, place) => benchPart(place));
  return {
    format: "restoration-estimate/1",
    title: `Bench machine of ${partCount} parts`,
    currency: "USD",
    pricesAsOf: "2026-06",
    vehicle: { kind: "motorcycle", make: "Merrowdale", model: "Tarn 350", year: 1961 },
    acceptableNetCost: 6_000,
    budget: { amount: 12_000, includesPurchase: false },
    acquisition: { price: 2_000, extras: [{ id: "fee", name: "Fee", shareOfPrice: 0.06 }] },
    taxPercent: 5,
    labour: {
      ownHourValue: 15,
      ownHoursPerWeek: { kind: "triangular", low: 4, mode: 7, high: 11 },
      shopRates: { machining: pert(60, 85, 140), bodywork: pert(55, 75, 120) },
    },
    drivers: driverIds.map((id) => ({ id, name: id })),
    suppliers,
    wholeMachine: {
      before: [own("photograph", 4), own("strip-down", 18)],
      after: [own("trial-build", 20), own("final-build", 30), own("sort", 12)],
    },
    parts,
    findings: parts.flatMap((part, place) => (place % 4 === 1 ? [findingOf(place, part)] : [])),
    overheads: [
      { id: "consumables", name: "Consumables", cost: pert(150, 250, 600) },
      { id: "tools", name: "Tools", cost: { kind: "uniform", low: 50, high: 300 } },
      { id: "insurance", name: "Insurance", shareOfPrice: 0.03 },
      { id: "not-listed", name: "Not listed yet", shareOfListed: pert(0.03, 0.08, 0.2) },
    ],
    carrying: { perMonth: pert(15, 30, 60) },
    value: {
      finished: { kind: "lognormal", p10: 6_500, p90: 12_000 },
      drivers: { market: 0.5 },
      selling: { commission: 0.08, fixed: 150, months: { kind: "exponential", mean: 2 } },
    },
  };
}
