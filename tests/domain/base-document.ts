import type { EstimateDocument } from "../../src/domain/estimate-document.ts";
import type { Part } from "../../src/domain/part.ts";

const frame: Part = {
  id: "frame",
  name: "Frame",
  class: "frame",
  condition: { band: "tired" },
  routes: [
    {
      id: "coat",
      method: "powder-coat",
      worksFor: ["sound", "tired"],
      state: "open",
      operations: [
        { id: "strip", name: "Strip", trade: "mechanical", hours: 3, by: "owner", basis: "starter" },
        {
          id: "blast",
          name: "Blast",
          trade: "blasting",
          cost: { kind: "lognormal", p10: 60, p90: 200 },
          supplier: "coater",
          lot: "black",
          drivers: {},
        },
        {
          id: "powder",
          name: "Powder",
          trade: "powder",
          state: "to-do",
          cost: { kind: "pert", low: 200, mode: 400, high: 800, covers: 0.8, weight: 4 },
          per: "job",
          supplier: "coater",
          lot: "black",
          leadWeeks: { kind: "exponential", mean: 1 },
          after: ["blast"],
          drivers: { powder: 0.6, pace: -0.3 },
          basis: "quoted",
        },
        { id: "refit", name: "Refit", trade: "general", hours: 2, by: "owner", after: ["whole/strip-down"] },
      ],
      failure: { probability: 0.1, after: "blast", drivers: { storage: 0.4 } },
      valueEffect: { kind: "uniform", low: -300, high: 200 },
    },
    {
      id: "repair",
      method: "repair",
      state: "failed",
      operations: [
        {
          id: "weld",
          name: "Weld",
          trade: "bodywork",
          hours: { kind: "sample", values: [4, 2, 9], weights: [1, 2, 1] },
          by: "shop",
        },
        { id: "dress", name: "Dress", trade: "bodywork", cost: 40, after: ["weld"] },
      ],
    },
  ],
  ifUnresolved: { valueEffect: { kind: "normal", mean: -900, sd: 200, atLeast: -2000 } },
  note: "Seen from below only.",
};

const lid: Part = {
  id: "lid",
  name: "Toolbox lid",
  class: "side-cover",
  quantity: 2,
  condition: { odds: { poor: 0.25, missing: 0.75 }, drivers: { storage: 0.6 } },
  routes: [
    {
      id: "hunt",
      method: "new-old-stock",
      operations: [
        {
          id: "order",
          name: "Order",
          trade: "parts",
          cost: { kind: "percentiles", p10: 90, p50: 160, p90: 300, floor: 20 },
        },
        { id: "verify", name: "Verify", trade: "general", hours: 0.5, by: "owner" },
        { id: "paint", name: "Paint", trade: "paint", cost: 120, after: ["frame/coat/powder"] },
      ],
      purchase: {
        findsPerMonth: 0.5,
        patienceMonths: 12,
        tries: 3,
        judgedAfter: "verify",
        outcomes: [
          { probability: 0.5, result: "right" },
          {
            probability: 0.25,
            result: "rework",
            operations: [
              { id: "dress", name: "Dress", trade: "bodywork", hours: 1, by: "shop" },
              { id: "fill", name: "Fill", trade: "bodywork", cost: 30, after: ["dress", "frame/coat/strip"] },
            ],
          },
          { probability: 0.25, result: "useless", recovers: 0.5 },
        ],
      },
    },
    { id: "leave", method: "leave", operations: [] },
  ],
};

const tank: Part = {
  id: "tank",
  name: "Fuel tank",
  class: "fuel-tank",
  condition: { odds: { tired: 0.5, poor: 0.5 } },
  routes: [
    {
      id: "fitted-one",
      method: "used",
      state: "fitted",
      operations: [{ id: "pay", name: "Pay", trade: "parts", state: "done", cost: 310, basis: "firm" }],
    },
    {
      id: "repaint",
      method: "repaint",
      operations: [
        { id: "old", name: "Old work", trade: "upholstery", state: "done", hours: 2, by: "shop" },
        {
          id: "prime",
          name: "Prime",
          trade: "paint",
          leadWeeks: {
            kind: "discrete",
            outcomes: [
              { value: 4, probability: 0.5 },
              { value: 2, probability: 0.5 },
            ],
          },
        },
      ],
    },
  ],
};

const base: EstimateDocument = {
  format: "restoration-estimate/1",
  title: "A valid document that uses every field",
  currency: "USD",
  pricesAsOf: "2025-06",
  vehicle: {
    kind: "motorcycle",
    make: "Merrowdale",
    model: "Tarn 350 De Luxe",
    year: 1961,
    note: "Invented.",
  },
  acceptableRisk: 0.2,
  acceptableNetCost: 4000,
  budget: { amount: 14_000, includesPurchase: true },
  acquisition: {
    price: 2400,
    extras: [
      { id: "collection", name: "Collection", cost: 300, drivers: { pace: 0.1 } },
      { id: "premium", name: "Buyer's premium", shareOfPrice: 0.1 },
    ],
  },
  start: "2025-09-01",
  neededBy: "2027-05-01",
  cashPerMonth: 400,
  taxPercent: 20,
  reclaimsTax: false,
  labour: {
    ownHourValue: 10,
    ownHoursPerWeek: { kind: "triangular", low: 4, mode: 8, high: 14 },
    shopRates: { bodywork: { kind: "pert", low: 60, mode: 85, high: 140 }, mechanical: 90 },
  },
  shop: { costRate: { kind: "normal", mean: 45, sd: 5 }, chargeRate: 90, partsMarkUpPercent: 15 },
  drivers: [
    { id: "pace", name: "Pace" },
    { id: "powder", name: "Powder coaters" },
    { id: "storage", name: "How it was kept" },
  ],
  suppliers: [
    {
      id: "coater",
      name: "The coater",
      trade: "powder",
      minimumCharge: 100,
      batchCharge: { kind: "uniform", low: 25, high: 100 },
      freightPerBatch: 40,
      leadWeeks: { kind: "log-student", location: 1, scale: 0.5, freedom: 6 },
      taxPercent: 10,
      drivers: { powder: 0.5 },
    },
  ],
  wholeMachine: {
    before: [{ id: "strip-down", name: "Strip down", trade: "mechanical", hours: 16, by: "owner" }],
    after: [
      {
        id: "assembly",
        name: "Assembly",
        trade: "mechanical",
        hours: 40,
        by: "owner",
        after: ["strip-down"],
      },
      {
        id: "road-test",
        name: "Road test",
        trade: "general",
        hours: 8,
        by: "owner",
        after: ["whole/assembly"],
      },
    ],
  },
  parts: [frame, lid, tank],
  findings: [
    {
      id: "rust-through",
      name: "Rust-through",
      probability: 0.25,
      cost: { kind: "lognormal", mean: 150, sd: 60 },
      hours: 3,
      by: "shop",
      trade: "bodywork",
      leadWeeks: 1,
      part: "frame",
      onRoutes: ["coat"],
      rulesOut: ["repair"],
      revealedAt: "blasting",
      state: "open",
      drivers: { storage: 0.6 },
      inspection: { name: "Magnet and torch", cost: 0, minutes: 10, detects: 0.7, falseAlarm: 0.05 },
    },
    { id: "stud", name: "Broken stud", probability: 0.3, trade: "mechanical", revealedAt: "strip-down" },
  ],
  overheads: [
    { id: "consumables", name: "Consumables", cost: { kind: "pert", low: 250, mode: 500, high: 900 } },
    { id: "unlisted", name: "Not listed yet", shareOfListed: 0.18, drivers: { pace: 0.3 } },
    { id: "duty", name: "Duty", shareOfPrice: { kind: "uniform", low: 0, high: 0.05 } },
  ],
  carrying: { perMonth: 30 },
  value: {
    finished: { kind: "lognormal", p10: 9100, p90: 15_300 },
    asIs: 2400,
    inPieces: 1700,
    parted: { kind: "normal", mean: 3000, sd: 500 },
    boughtFinished: 12_000,
    drivers: { storage: -0.2 },
    selling: { commission: 0.08, fixed: 300, months: { kind: "uniform", low: 2, high: 6 } },
  },
  spent: { cash: 250, ownHours: 12, firmOrders: 100 },
  paths: [
    { id: "as-planned", name: "As planned", kind: "restore" },
    {
      id: "tidy",
      name: "Tidy and usable",
      kind: "restore",
      routeOrder: { lid: ["leave", "hunt"] },
      leaveOut: ["tank"],
      finished: 8000,
    },
  ],
};

/** A fresh copy of a valid document that uses every field of the format. */
export function baseDocument(): EstimateDocument {
  return structuredClone(base);
}
