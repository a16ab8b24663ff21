import type { EstimateDocument } from "../estimate-document.ts";
import { type Fault, faultAt } from "../fault.ts";

/**
 * Finds a wanted date that is before the start.
 *
 * @param document of the right shape, its dates YYYY-MM-DD
 */
export function dateFaults({ start, neededBy }: EstimateDocument): Fault[] {
  if (start === undefined || neededBy === undefined || neededBy >= start) return [];
  return [faultAt("/neededBy", neededBy, `not before the start, ${start}`)];
}
