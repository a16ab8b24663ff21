import { checkShape } from "./check-shape.ts";
import { documentFaults } from "./document-faults.ts";
import { type EstimateDocument, estimateDocumentSchema } from "./estimate-document.ts";
import { type Fault, firstFaults } from "./fault.ts";
import { unknownField } from "./plain-rule.ts";
import { structureFaults } from "./structure-faults.ts";

/**
 * Checks what claims to be an estimate document: what no document may hold, then its shape, then the rules between its
 * fields. A later check runs only where the earlier ones found nothing worse than a field too many.
 *
 * @param input parsed JSON, of any depth and size
 * @returns a document that can be simulated, or the first faults
 */
export function parseEstimateDocument(input: unknown): { document: EstimateDocument } | { faults: Fault[] } {
  const structure = structureFaults(input);
  if (structure.length > 0) return { faults: firstFaults(structure) };
  const shape = checkShape(estimateDocumentSchema, input);
  if ("faults" in shape)
    return { faults: firstFaults([...shape.faults, ...rulesDespite(shape.faults, input)]) };
  const faults = documentFaults(shape.value);
  return faults.length > 0 ? { faults: firstFaults(faults) } : { document: shape.value };
}

/** A document whose only shape faults are fields too many has every field that the rules read. */
function rulesDespite(faults: readonly Fault[], input: unknown): Fault[] {
  if (faults.some(({ rule }) => rule !== unknownField)) return [];
  return documentFaults(input as EstimateDocument);
}
