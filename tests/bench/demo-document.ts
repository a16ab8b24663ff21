import { existsSync, readFileSync } from "node:fs";
import type { EstimateDocument } from "../../src/domain/estimate-document.ts";
import { parseEstimateDocument } from "../../src/domain/parse-estimate-document.ts";
import { benchDocument } from "./bench-document.ts";

const demoFile = new URL("../../seed/demo/barn-stored-single.json", import.meta.url);

/** Parts of a whole motorcycle. */
export const usualParts = 60;

/** The demo, or a made-up document of its size where there is none. */
export function demoDocument(): EstimateDocument {
  if (!existsSync(demoFile)) return benchDocument(usualParts);
  const parsed = parseEstimateDocument(JSON.parse(readFileSync(demoFile, "utf8")));
  if ("faults" in parsed)
    throw new Error(`the demo is not a valid document: ${JSON.stringify(parsed.faults)}`);
  return parsed.document;
}
