import { readFileSync } from "node:fs";
import { estimateDocumentSchema } from "../../src/domain/estimate-document.ts";
import type { EstimateDocument } from "../../src/domain/estimate-document.ts";

/** Reads a document of the seed folder, afresh each time. @param path such as examples/smallest */
export function readExample(path: string): EstimateDocument {
  const file = new URL(`../../seed/${path}.json`, import.meta.url);
  return estimateDocumentSchema.parse(JSON.parse(readFileSync(file, "utf8")));
}
