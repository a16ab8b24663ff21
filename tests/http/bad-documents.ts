import type { EstimateDocument } from "../../src/domain/estimate-document.ts";
import type { Fault } from "../../src/domain/fault.ts";
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

const withOperation = (fields: object) => withRoute({ operations: [{ ...operation, ...fields }] });
const withRoute = (fields: object) => ({
  ...soundDocument,
  parts: [{ ...soundDocument.parts[0], routes: [{ ...route, ...fields }] }, soundDocument.parts[1]],
});
const cost = "/parts/0/routes/0/operations/0/cost";
const many = (count: number) => Array.from({ length: count }, (_, place) => ({ ...operation, id: `w${place}` }));

/** A way a document is broken: its name, the document, and the fault it must be answered with. */
export type BadDocument = readonly [string, object, Partial<Fault>];

/** One document for each limit that has to have a clear answer. */
export const badDocuments: readonly BadDocument[] = [
  [
    "a negative cost",
    withOperation({ cost: -5 }),
    { pointer: cost, value: "-5" },
  ],
  [
    "a lowest value above the likeliest",
    withOperation({ cost: { kind: "pert", low: 9, mode: 5, high: 12 } }),
    { pointer: expect.stringMatching(`^${cost}`) },
  ],
];
