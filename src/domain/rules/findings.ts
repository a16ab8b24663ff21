import type { EstimateDocument, Finding } from "../estimate-document.ts";
import { type Fault, faultAt } from "../fault.ts";
import { type Place, placesOf } from "../places.ts";
import { type RoutesOfParts, routesOfParts } from "./routes-of-parts.ts";

/**
 * Finds findings on parts or routes that do not exist.
 *
 * @param document of the right shape
 */
export function findingFaults(document: EstimateDocument): Fault[] {
  const routes = routesOfParts(document);
  return placesOf("/findings", document.findings).flatMap((place) => [
    ...partFaults(place, routes),
    ...routeListFaults(place, "onRoutes", routes),
    ...routeListFaults(place, "rulesOut", routes),
  ]);
}

function partFaults({ pointer, entry: { part } }: Place<Finding>, routesOfPart: RoutesOfParts): Fault[] {
  if (part === undefined || routesOfPart.has(part)) return [];
  return [faultAt(`${pointer}/part`, part, "must name a part of the document")];
}

function routeListFaults(
  { pointer, entry }: Place<Finding>,
  field: "onRoutes" | "rulesOut",
  routesOfPart: RoutesOfParts,
): Fault[] {
  if (entry[field] === undefined) return [];
  if (entry.part === undefined)
    return [faultAt(`${pointer}/${field}`, entry[field], `${field} needs a part`)];
  const routes = routesOfPart.get(entry.part);
  return placesOf(`${pointer}/${field}`, entry[field])
    .filter((route) => routes?.has(route.entry) === false)
    .map((route) => faultAt(route.pointer, route.entry, `must name a route of the part ${entry.part}`));
}
