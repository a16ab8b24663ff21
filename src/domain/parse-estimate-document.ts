import { type EstimateDocument, estimateDocumentSchema } from "./estimate-document.ts";
export function parseEstimateDocument(
  input: unknown,
): { document: EstimateDocument } | { faults: { pointer: string; value: string; rule: string }[] } {
  return { document: estimateDocumentSchema.parse(input) };
}
