import { checkShape } from "./check-shape.ts";
import { documentFaults } from "./document-faults.ts";
import { type EstimateDocument, estimateDocumentSchema } from "./estimate-document.ts";
import { type Fault, firstFaults } from "./fault.ts";
import { pointerSteps } from "./json-pointer.ts";
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

/** Fields too many are taken off a copy; where that makes a document of the right shape, the rules are checked on it. */
function rulesDespite(faults: readonly Fault[], input: unknown): Fault[] {
  if (faults.some(({ rule }) => rule !== unknownField)) return [];
  const copy: unknown = JSON.parse(JSON.stringify(input));
  for (const { pointer } of faults) removeField(copy, pointer);
  const shape = checkShape(estimateDocumentSchema, copy);
  return "faults" in shape ? [] : documentFaults(shape.value);
}

function removeField(tree: unknown, pointer: string): void {
  const steps = pointerSteps(pointer);
  const field = steps.pop()!;
  let parent = tree as Record<string, unknown>;
  for (const step of steps) parent = parent[step] as Record<string, unknown>;
  Reflect.deleteProperty(parent, field);
}
