import type { EstimateDocument } from "../estimate-document.ts";
import type { Fault } from "../fault.ts";
import { placesOf } from "../places.ts";
import { sumFaults } from "./sum-faults.ts";

/**
 * Finds odds over the bands of condition that are not the whole of what can be.
 *
 * @param document of the right shape
 */
export function conditionFaults(document: EstimateDocument): Fault[] {
  return placesOf("/parts", document.parts).flatMap(({ pointer, entry: { condition } }) => {
    if (!("odds" in condition)) return [];
    return sumFaults(`${pointer}/condition/odds`, Object.values(condition.odds), "the odds sum to 1");
  });
}
