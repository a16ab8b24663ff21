import type { EstimateDocument } from "../domain/estimate-document.ts";
import type { Quantity } from "./quantity.ts";

/**
 * Whether something in the document may happen in a few draws, or in none of those made: an event, a choice, one of a few
 * values, a draw raised to its floor, a hunt given up. Where nothing may, what is equal in every draw is certain.
 *
 * @param quantities of the document, with the first try of every purchase and the first departure of every lot
 */
export function hasRareEvents(document: EstimateDocument, quantities: readonly Quantity[]): boolean {
  return (
    quantities.some(
      ({ kind, floor, values }) => kind === "steps" || (kind === "table" && floor > values[0]!),
    ) ||
    document.parts.some(({ routes }) => routes.some(({ purchase }) => purchase?.patienceMonths !== undefined))
  );
}
