import type { EstimateDocument } from "../estimate-document.ts";
import { type Fault, faultAt } from "../fault.ts";
import type { Route } from "../part.ts";
import { type Place, placesOf } from "../places.ts";

/**
 * Finds parts with two routes fitted, and routes whose failure does not make sense.
 *
 * @param document of the right shape
 */
export function routeFaults(document: EstimateDocument): Fault[] {
  return placesOf("/parts", document.parts).flatMap(({ pointer, entry }) => {
    const routes = placesOf(`${pointer}/routes`, entry.routes);
    return [...fittedFaults(routes), ...routes.flatMap(failureFaults)];
  });
}

function fittedFaults(routes: readonly Place<Route>[]): Fault[] {
  const [, ...more] = routes.filter(({ entry }) => entry.state === "fitted");
  return more.map(({ pointer }) =>
    faultAt(`${pointer}/state`, "fitted", "at most one route of a part is fitted"),
  );
}

function failureFaults({ pointer, entry: { operations, failure, purchase } }: Place<Route>): Fault[] {
  if (failure === undefined) return [];
  const isNamed = operations.some(({ id }) => id === failure.after);
  return [
    ...(isNamed
      ? []
      : [faultAt(`${pointer}/failure/after`, failure.after, "must name an operation of the route")]),
    ...(purchase
      ? [faultAt(`${pointer}/purchase`, purchase, "a route has a failure or a purchase, not both")]
      : []),
  ];
}
