import type { EstimateDocument, Path } from "../estimate-document.ts";
import { type Fault, faultAt } from "../fault.ts";
import { type Place, placesOf } from "../places.ts";
import { type RoutesOfParts, routesOfParts } from "./routes-of-parts.ts";

/**
 * Finds paths that reorder or leave out what does not exist.
 *
 * @param document of the right shape
 */
export function pathFaults(document: EstimateDocument): Fault[] {
  const routes = routesOfParts(document);
  return placesOf("/paths", document.paths).flatMap((place) => [
    ...orderFaults(place, routes),
    ...leftOutFaults(place, routes),
  ]);
}

function orderFaults({ pointer, entry: { routeOrder } }: Place<Path>, routesOfPart: RoutesOfParts): Fault[] {
  return Object.entries(routeOrder ?? {}).flatMap(([part, order]) => {
    const at = `${pointer}/routeOrder/${part}`;
    const routes = routesOfPart.get(part);
    if (routes === undefined)
      return [faultAt(at, order, `must name a part of the document, which ${part} is not`)];
    return placesOf(at, order).flatMap(({ pointer: place, entry: route }, position) => {
      if (!routes.has(route)) return [faultAt(place, route, `must name a route of the part ${part}`)];
      if (order.indexOf(route) < position) return [faultAt(place, route, "a route stands once in an order")];
      return [];
    });
  });
}

function leftOutFaults({ pointer, entry: { leaveOut } }: Place<Path>, routesOfPart: RoutesOfParts): Fault[] {
  return placesOf(`${pointer}/leaveOut`, leaveOut)
    .filter(({ entry }) => !routesOfPart.has(entry))
    .map((place) => faultAt(place.pointer, place.entry, "must name a part of the document"));
}
