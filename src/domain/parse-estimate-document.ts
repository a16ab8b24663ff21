import { checkShape } from "./check-shape.ts";
import { documentFaults } from "./document-faults.ts";
import { type EstimateDocument, estimateDocumentSchema } from "./estimate-document.ts";
import { type Fault, firstFaults } from "./fault.ts";
import { structureFaults } from "./structure-faults.ts";

/**
 * Checks what claims to be an estimate document: what no document may hold, then its shape, then the rules between its
 * fields. A later check runs only where the earlier ones found nothing.
 *
 * @param input parsed JSON, of any depth and size
 * @returns a document that can be simulated, or the first faults
 */
export function parseEstimateDocument(input: unknown): { document: EstimateDocument } | { faults: Fault[] } {
  const structure = structureFaults(input);
  if (structure.length > 0) return { faults: firstFaults(structure) };
  const shape = checkShape(estimateDocumentSchema, input);
  if ("faults" in shape) return { faults: firstFaults(shape.faults) };
  const faults = documentFaults(shape.value);
  return faults.length > 0 ? { faults: firstFaults(faults) } : { document: shape.value };
}
