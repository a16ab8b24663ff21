import type { EstimateDocument } from "../estimate-document.ts";
import { type Fault, faultAt } from "../fault.ts";
import { type OperationPlace, operationPlaces } from "../operation-places.ts";

/**
 * Finds operations at suppliers that do not exist, lots without a supplier, and the owner's hours at a supplier.
 *
 * @param document of the right shape
 */
export function supplierFaults(document: EstimateDocument): Fault[] {
  const known = new Set(document.suppliers.map(({ id }) => id));
  return operationPlaces(document).flatMap((place) => operationFaults(place, known));
}

function operationFaults({ pointer, entry }: OperationPlace, known: ReadonlySet<string>): Fault[] {
  const { supplier, lot, hours, by } = entry;
  if (supplier === undefined) {
    return lot === undefined ? [] : [faultAt(`${pointer}/lot`, lot, "a lot needs a supplier")];
  }
  const isOwnersWork = by === "owner" && hours !== undefined;
  return [
    ...(known.has(supplier)
      ? []
      : [faultAt(`${pointer}/supplier`, supplier, "must name a supplier of the document")]),
    ...(isOwnersWork ? [faultAt(`${pointer}/by`, by, "owner's hours cannot be at a supplier")] : []),
  ];
}
