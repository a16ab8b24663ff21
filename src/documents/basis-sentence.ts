import type { EstimateDocument } from "../domain/estimate-document.ts";
import type { Operation } from "../domain/operation.ts";
import { operationsOf } from "./operations-of.ts";

/** How a starter figure is labelled wherever it shows. */
export const starterLabel = "starter figure, common practice";

const labels: Record<NonNullable<Operation["basis"]>, string> = {
  starter: starterLabel,
  "own-record": "your own record",
  quoted: "quoted",
  firm: "firm",
};

/** Counts what a document's figures rest on, weakest first. */
export function basisSentence(document: EstimateDocument): string {
  const estimated = operationsOf(document).filter(
    ({ cost, hours, state }) => (cost ?? hours) !== undefined && state !== "done",
  );
  const counts = [...Object.entries(labels), [undefined, "not said"] as const]
    .map(([basis, label]) => ({
      label,
      count: estimated.filter((operation) => operation.basis === basis).length,
    }))
    .filter(({ count }) => count > 0)
    .map(({ label, count }) => `${count} ${label}`);
  if (counts.length === 0) return "No operation is left to estimate.";
  return `What the operations rest on (${estimated.length} in all): ${counts.join("; ")}.`;
}
