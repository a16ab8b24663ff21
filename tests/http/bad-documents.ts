import type { EstimateDocument } from "../../src/domain/estimate-document.ts";
import type { Operation } from "../../src/domain/operation.ts";
import type { Route } from "../../src/domain/part.ts";

const operation: Operation = { id: "work", name: "Work", trade: "plating", cost: 100 };
const route: Route = { id: "replate", method: "replate", operations: [operation] };

/** A document whose every rule holds. */
export const soundDocument: EstimateDocument = {
  format: "restoration-estimate/1",
  title: "Sound",
  currency: "USD",
  pricesAsOf: "2026-06",
  vehicle: { kind: "motorcycle", make: "Merrowdale", model: "Tarn 350", year: 1961 },
  labour: { ownHourValue: 0, ownHoursPerWeek: 10, shopRates: { plating: 60 } },
  drivers: [{ id: "storage", name: "How it was kept" }],
  suppliers: [{ id: "plater", name: "Plater", trade: "plating" }],
  parts: [
    { id: "rim", name: "Rim", class: "wheel-rim", condition: { band: "tired" }, routes: [route] },
    { id: "fender", name: "Fender", class: "fender", condition: { band: "tired" }, routes: [route] },
  ],
  findings: [],
  overheads: [],
};

const withRoute = (fields: object) => ({
  ...soundDocument,
  parts: [{ ...soundDocument.parts[0], routes: [{ ...route, ...fields }] }, soundDocument.parts[1]],
});
const withOperation = (fields: object) => withRoute({ operations: [{ ...operation, ...fields }] });
const withFinding = (fields: object) => ({
  ...soundDocument,
  findings: [
    { id: "rust", name: "Rust", probability: 0.3, trade: "plating", revealedAt: "viewing", ...fields },
  ],
});
const withPart = (fields: object) => ({
  ...soundDocument,
  parts: [{ ...soundDocument.parts[0], ...fields }, soundDocument.parts[1]],
});
const operations = (count: number) =>
  Array.from({ length: count }, (_, place) => ({ ...operation, id: `work-${place}` }));
const nested = (levels: number): object => (levels === 1 ? [] : [nested(levels - 1)]);

const atRoute = "/parts/0/routes/0";
const at = `${atRoute}/operations/0`;

/** A way a document is broken: its name, the document, and the pointer, value and rule it must be told. */
export type BadDocument = readonly [string, object, string, string, RegExp];

/** One document for each limit of the format that must have a clear answer. */
export const badDocuments: readonly BadDocument[] = [
  ["a negative cost", withOperation({ cost: -5 }), `${at}/cost`, "-5", /negative|at least 0/],
  ["an amount beyond 1e9", withOperation({ cost: 2e9 }), `${at}/cost`, "2000000000", /at most 1000000000/],
  [
    "a mode below the low",
    withOperation({ cost: { kind: "pert", low: 9, mode: 5, high: 12 } }),
    `${at}/cost/mode`,
    "5",
    /between low and high/,
  ],
  [
    "a floor above p10",
    withOperation({ cost: { kind: "percentiles", p10: 5, p50: 8, p90: 12, floor: 6 } }),
    `${at}/cost/floor`,
    "6",
    /below p10/,
  ],
  [
    "a probability above 1",
    withRoute({ failure: { probability: 1.5, after: "work" } }),
    `${atRoute}/failure/probability`,
    "1.5",
    /at most 1/,
  ],
  [
    "odds that do not sum to 1",
    withPart({ condition: { odds: { tired: 0.5, poor: 0.6 } } }),
    "/parts/0/condition/odds",
    "1.1",
    /sum to 1/,
  ],
  [
    "a ring in after",
    withRoute({
      operations: [
        { ...operation, id: "first", after: ["second"] },
        { ...operation, id: "second", after: ["first"] },
      ],
    }),
    `${atRoute}/operations/0/after/0`,
    '"second"',
    /ring/,
  ],
  ["an unknown predecessor", withOperation({ after: ["polish"] }), `${at}/after/0`, '"polish"', /must name/],
  [
    "an unknown supplier",
    withOperation({ supplier: "smith" }),
    `${at}/supplier`,
    '"smith"',
    /must name a supplier/,
  ],
  [
    "an unknown driver",
    withOperation({ drivers: { weather: 0.5 } }),
    `${at}/drivers/weather`,
    "0.5",
    /must name a driver/,
  ],
  [
    "a duplicate id",
    { ...soundDocument, parts: [soundDocument.parts[0], soundDocument.parts[0]] },
    "/parts/1/id",
    '"rim"',
    /once in its list/,
  ],
  [
    "loadings whose squares exceed 1",
    {
      ...soundDocument,
      drivers: [...soundDocument.drivers, { id: "pace", name: "Pace" }],
      parts: [
        {
          ...soundDocument.parts[0],
          routes: [{ ...route, operations: [{ ...operation, drivers: { storage: 1, pace: 1 } }] }],
        },
      ],
    },
    `${at}/drivers`,
    "2",
    /squares/,
  ],
  ["hours without by", withOperation({ hours: 2 }), `${at}/by`, "nothing", /required with hours/],
  [
    "owner's hours at a supplier",
    withOperation({ hours: 2, by: "owner", supplier: "plater" }),
    `${at}/by`,
    '"owner"',
    /cannot be at a supplier/,
  ],
  [
    "a shop's hours without a rate",
    withOperation({ hours: 2, by: "shop", trade: "paint" }),
    `${at}/trade`,
    '"paint"',
    /need a rate/,
  ],
  [
    "a failure and a purchase on one route",
    withRoute({ failure: { probability: 0.1, after: "work" }, purchase: {} }),
    `${atRoute}/purchase`,
    "{}",
    /not both/,
  ],
  [
    "findsPerMonth of 0",
    withRoute({ purchase: { findsPerMonth: 0 } }),
    `${atRoute}/purchase/findsPerMonth`,
    "0",
    /above 0/,
  ],
  [
    "patience without a hunt",
    withRoute({ purchase: { patienceMonths: 3 } }),
    `${atRoute}/purchase/patienceMonths`,
    "3",
    /needs findsPerMonth/,
  ],
  ["21 tries", withRoute({ purchase: { tries: 21 } }), `${atRoute}/purchase/tries`, "21", /at most 20/],
  [
    "two fitted routes",
    withPart({ routes: [1, 2].map((one) => ({ ...route, id: `route-${one}`, state: "fitted" })) }),
    "/parts/0/routes/1/state",
    '"fitted"',
    /at most one/,
  ],
  [
    "a route ruled out without a part",
    withFinding({ rulesOut: ["replate"] }),
    "/findings/0/rulesOut",
    '["replate"]',
    /needs a part/,
  ],
  [
    "an extra as a share of what is listed",
    {
      ...soundDocument,
      acquisition: { price: 100, extras: [{ id: "fee", name: "Fee", shareOfListed: 0.1 }] },
    },
    "/acquisition/extras/0/shareOfListed",
    "0.1",
    /no shareOfListed/,
  ],
  [
    "3,000 operations",
    withPart({
      routes: [1, 2, 3].map((one) => ({ ...route, id: `route-${one}`, operations: operations(1_000) })),
    }),
    "",
    "3001 operations",
    /at most 2000 operations/,
  ],
  ["an unknown field", { ...soundDocument, colour: "maroon" }, "/colour", '"maroon"', /unknown field/],
  ["an unknown field deep inside", withOperation({ price: 5 }), `${at}/price`, "5", /unknown field/],
  ["a missing field", withPart({ condition: undefined }), "/parts/0/condition", "nothing", /required/],
  ["text for a number", withOperation({ cost: "100" }), `${at}/cost`, '"100"', /number/],
  [
    "an unknown format",
    { ...soundDocument, format: "restoration-estimate/2" },
    "/format",
    '"restoration-estimate/2"',
    /restoration-estimate\/1/,
  ],
  ["an unknown part class", withPart({ class: "flux-box" }), "/parts/0/class", '"flux-box"', /class/],
  ["an id with capitals", withPart({ id: "Rim" }), "/parts/0/id", '"Rim"', /lower-case/],
  [
    "a month that does not exist",
    { ...soundDocument, pricesAsOf: "2026-13" },
    "/pricesAsOf",
    '"2026-13"',
    /YYYY-MM/,
  ],
  [
    "a character that cannot be stored",
    { ...soundDocument, title: "A\u0000B" },
    "/title",
    '"A\\u0000B"',
    /U\+0000/,
  ],
  ["half of a surrogate pair", { ...soundDocument, title: "A\ud800" }, "/title", '"A\\ud800"', /surrogate/],
  [
    "33 levels of nesting",
    { ...soundDocument, parts: nested(32) },
    `/parts${"/0".repeat(31)}`,
    "[]",
    /at most 32 levels/,
  ],
];
