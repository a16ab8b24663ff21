import type { EstimateDocument, Overhead } from "../estimate-document.ts";
import { type Fault, faultAt, faultOfSum } from "../fault.ts";
import { type Place, placesOf } from "../places.ts";

const sizes = ["cost", "shareOfPrice", "shareOfListed"] as const;

/**
 * Finds overheads and extras of the purchase that have no size, or several.
 *
 * @param document of the right shape
 */
export function overheadFaults(document: EstimateDocument): Fault[] {
  const extras = placesOf("/acquisition/extras", document.acquisition?.extras);
  return [
    ...placesOf("/overheads", document.overheads).flatMap(sizeFaults),
    ...extras.flatMap(sizeFaults),
    ...extras.flatMap(listedFaults),
  ];
}

function sizeFaults({ pointer, entry }: Place<Overhead>): Fault[] {
  const given = sizes.filter((size) => entry[size] !== undefined);
  if (given.length === 1) return [];
  return [faultOfSum(pointer, given.join(" and ") || "none", `exactly one of ${sizes.join(", ")}`)];
}

/** Nothing is listed yet when the machine is bought. */
function listedFaults({ pointer, entry: { shareOfListed } }: Place<Overhead>): Fault[] {
  if (shareOfListed === undefined) return [];
  return [
    faultAt(`${pointer}/shareOfListed`, shareOfListed, "an extra of the purchase has no shareOfListed"),
  ];
}
