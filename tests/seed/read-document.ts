import type { EstimateDocument } from "../../src/domain/estimate-document.ts";
import { parseEstimateDocument } from "../../src/domain/parse-estimate-document.ts";
import { readSeed } from "./read-seed.ts";

/** A document of the seed that has passed every rule; throws with its faults when it has not. */
export function readDocument(path: string): EstimateDocument {
  const parsed = parseEstimateDocument(readSeed(path));
  if ("faults" in parsed) throw new Error(`${path}: ${JSON.stringify(parsed.faults)}`);
  return parsed.document;
}
