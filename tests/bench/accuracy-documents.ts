import { readFileSync } from "node:fs";
import type { EstimateDocument } from "../../src/domain/estimate-document.ts";
import { parseEstimateDocument } from "../../src/domain/parse-estimate-document.ts";
import { benchDocument } from "./bench-document.ts";
import { demoDocument, usualParts } from "./demo-document.ts";

/** A document with its name in the tables. */
export interface NamedDocument {
  readonly name: string;
  readonly document: EstimateDocument;
}

/** The example's own budget is never overrun; of this one the chance is near a half. */
const tightBudget = 915;

function mopedDocument(): EstimateDocument {
  const file = new URL("../../seed/examples/moped-mid-way.json", import.meta.url);
  const parsed = parseEstimateDocument(JSON.parse(readFileSync(file, "utf8")));
  if ("faults" in parsed) throw new Error(`not a valid document: ${JSON.stringify(parsed.faults)}`);
  return { ...parsed.document, budget: { amount: tightBudget, includesPurchase: false } };
}

/** The documents accuracy is measured on: a real one, one of many parts, one of few. */
export function accuracyDocuments(): NamedDocument[] {
  return [
    { name: "demo", document: demoDocument() },
    { name: `${usualParts} parts`, document: benchDocument(usualParts) },
    { name: "moped", document: mopedDocument() },
  ];
}
