import type { EstimateDocument } from "../estimate-document.ts";

/** The ids of each part's routes, by the part's id. */
export type RoutesOfParts = ReadonlyMap<string, ReadonlySet<string>>;

/**
 * Lists the routes that a part's id may be followed by.
 *
 * @param document of the right shape
 */
export function routesOfParts(document: EstimateDocument): RoutesOfParts {
  return new Map(document.parts.map(({ id, routes }) => [id, new Set(routes.map((route) => route.id))]));
}
