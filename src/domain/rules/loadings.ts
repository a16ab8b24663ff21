import type { EstimateDocument } from "../estimate-document.ts";
import { type Fault, faultAt, faultOfSum } from "../fault.ts";
import { loadingPlaces } from "../loading-places.ts";
import type { Loadings } from "../loadings.ts";
import type { Place } from "../places.ts";

/** Room for rounding in loadings such as the square root of a half, twice. */
const tolerance = 1e-12;

/**
 * Finds loadings on drivers that are not declared, and those that explain more than there is.
 *
 * @param document of the right shape
 */
export function loadingFaults(document: EstimateDocument): Fault[] {
  const declared = new Set(document.drivers.map(({ id }) => id));
  return loadingPlaces(document).flatMap((place) => [...unknownDrivers(place, declared), ...excess(place)]);
}

function unknownDrivers({ pointer, entry }: Place<Loadings>, declared: ReadonlySet<string>): Fault[] {
  return Object.entries(entry)
    .filter(([driver]) => !declared.has(driver))
    .map(([driver, loading]) =>
      faultAt(`${pointer}/${driver}`, loading, "must name a driver of the document"),
    );
}

function excess({ pointer, entry }: Place<Loadings>): Fault[] {
  const sum = Object.values(entry).reduce((squares, loading) => squares + loading * loading, 0);
  if (sum <= 1 + tolerance) return [];
  return [faultOfSum(pointer, String(sum), "the squares of the loadings sum to at most 1")];
}
