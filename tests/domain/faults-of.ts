import { parseEstimateDocument } from "../../src/domain/parse-estimate-document.ts";

/** Every fault of a document as the line a person reads: pointer, value, rule. */
export function faultsOf(document: unknown): string[] {
  const parsed = parseEstimateDocument(document);
  if (!("faults" in parsed)) return [];
  return parsed.faults.map(({ pointer, value, rule }) => `${pointer}  ${value}  ${rule}`);
}
