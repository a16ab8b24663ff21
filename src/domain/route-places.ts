import type { EstimateDocument } from "./estimate-document.ts";
import type { Part, Route } from "./part.ts";
import { perDocument } from "./per-document.ts";
import { type Place, placesOf } from "./places.ts";

/** A route with the way to it and its part. */
export interface RoutePlace extends Place<Route> {
  readonly part: Part;
}

/**
 * Lists every route in document order.
 *
 * @param document of the right shape
 */
export const routePlaces = perDocument((document: EstimateDocument): readonly RoutePlace[] =>
  placesOf("/parts", document.parts).flatMap(({ pointer, entry: part }) =>
    placesOf(`${pointer}/routes`, part.routes).map((place) => ({ ...place, part })),
  ),
);
