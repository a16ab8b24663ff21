import type { EstimateDocument } from "./estimate-document.ts";
import type { Loadings } from "./loadings.ts";
import { operationPlaces } from "./operation-places.ts";
import { type Place, placesOf } from "./places.ts";
import { routePlaces } from "./route-places.ts";

/** Anything that may say how far it moves with the drivers. */
type Holder = { readonly drivers?: Loadings | undefined } | undefined;

/**
 * Lists every set of loadings that is written in a document.
 *
 * @param document of the right shape
 */
export function loadingPlaces(document: EstimateDocument): Place<Loadings>[] {
  const holders: Place<Holder>[] = [
    ...placesOf("/suppliers", document.suppliers),
    ...operationPlaces(document),
    ...placesOf("/parts", document.parts).map(({ pointer, entry: { condition } }) => ({
      pointer: `${pointer}/condition`,
      entry: "odds" in condition ? condition : undefined,
    })),
    ...routePlaces(document).map(({ pointer, entry }) => ({
      pointer: `${pointer}/failure`,
      entry: entry.failure,
    })),
    ...placesOf("/findings", document.findings),
    ...placesOf("/overheads", document.overheads),
    ...placesOf("/acquisition/extras", document.acquisition?.extras),
    { pointer: "/value", entry: document.value },
  ];
  return holders.flatMap(({ pointer, entry }) =>
    entry?.drivers === undefined ? [] : [{ pointer: `${pointer}/drivers`, entry: entry.drivers }],
  );
}
