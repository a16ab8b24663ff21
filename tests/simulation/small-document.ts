import type { EstimateDocument } from "../../src/domain/estimate-document.ts";
import type { Part } from "../../src/domain/part.ts";
import { parseEstimateDocument } from "../../src/domain/parse-estimate-document.ts";

/** A valid document that holds nothing yet, with what the test needs laid over it. */
export function documentWith(fields: Partial<EstimateDocument>): EstimateDocument {
  const document: EstimateDocument = {
    format: "restoration-estimate/1",
    title: "Test piece",
    currency: "USD",
    pricesAsOf: "2026-06",
    vehicle: { kind: "motorcycle", make: "Merrowdale", model: "Tarn 350", year: 1961 },
    labour: { ownHourValue: 0, ownHoursPerWeek: 10, shopRates: {} },
    drivers: [],
    suppliers: [],
    parts: [],
    findings: [],
    overheads: [],
    ...fields,
  };
  const parsed = parseEstimateDocument(document);
  if ("faults" in parsed) throw new Error(JSON.stringify(parsed.faults));
  return parsed.document;
}

/** A part in tired condition with these routes. */
export function partWith(id: string, routes: Part["routes"], fields: Partial<Part> = {}): Part {
  return { id, name: id, class: "fender", condition: { band: "tired" }, routes, ...fields };
}
