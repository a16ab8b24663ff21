import { readFileSync } from "node:fs";
import type { EstimateDocument } from "../../src/domain/estimate-document.ts";
import { parseEstimateDocument } from "../../src/domain/parse-estimate-document.ts";

export const demoFile = new URL("../../seed/demo/barn-stored-single.json", import.meta.url);

/** Parts of a whole motorcycle, as in the demo. */
export const usualParts = 60;

/** The demo: a motorcycle before its purchase. */
export function demoDocument(): EstimateDocument {
  const parsed = parseEstimateDocument(JSON.parse(readFileSync(demoFile, "utf8")));
  if ("faults" in parsed)
    throw new Error(`the demo is not a valid document: ${JSON.stringify(parsed.faults)}`);
  return parsed.document;
}
