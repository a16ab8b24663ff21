import type { EstimateDocument } from "../estimate-document.ts";
import { type Fault, faultOfSum } from "../fault.ts";
import { mostOperations } from "../limits.ts";
import { operationPlaces } from "../operation-places.ts";

/**
 * Finds a document with more operations than can be reckoned with.
 *
 * @param document of the right shape
 */
export function sizeFaults(document: EstimateDocument): Fault[] {
  const count = operationPlaces(document).length;
  if (count <= mostOperations) return [];
  return [
    faultOfSum(
      "",
      `${count} operations`,
      `at most ${mostOperations} operations: routes, rework and whole machine`,
    ),
  ];
}
