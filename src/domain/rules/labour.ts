import type { EstimateDocument, Finding } from "../estimate-document.ts";
import { type Fault, faultAt } from "../fault.ts";
import type { Operation } from "../operation.ts";
import { operationPlaces } from "../operation-places.ts";
import { type Place, placesOf } from "../places.ts";
import type { Trade } from "../vocabulary.ts";

/**
 * Finds hours that nobody does, and shop hours without a rate.
 *
 * @param document of the right shape
 */
export function labourFaults(document: EstimateDocument): Fault[] {
  const rated = new Set(Object.keys(document.labour.shopRates) as Trade[]);
  const operations = operationPlaces(document).flatMap((place) => {
    const isOver = place.entry.state === "done" && !place.isBought;
    return [...handsFaults(place), ...(isOver ? [] : rateFaults(place, rated))];
  });
  const findings = placesOf("/findings", document.findings).flatMap((place) => [
    ...handsFaults(place),
    ...rateFaults(place, rated),
  ]);
  return [...operations, ...findings];
}

function handsFaults({ pointer, entry: { hours, by } }: Place<Operation | Finding>): Fault[] {
  const isNobodys = hours !== undefined && by === undefined;
  return isNobodys ? [faultAt(`${pointer}/by`, by, "required with hours")] : [];
}

function rateFaults({ pointer, entry }: Place<Operation | Finding>, rated: ReadonlySet<Trade>): Fault[] {
  const { hours, by, trade } = entry;
  if (hours === undefined || by !== "shop" || rated.has(trade)) return [];
  return [
    faultAt(`${pointer}/trade`, trade, `a shop's hours need a rate: labour.shopRates has none of ${trade}`),
  ];
}
