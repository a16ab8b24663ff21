import type { EstimateDocument } from "../estimate-document.ts";
import { type Fault, faultAt } from "../fault.ts";
import { type Place, placesOf } from "../places.ts";
import { routePlaces } from "../route-places.ts";

type Identified = Place<{ readonly id: string }>;

/**
 * Finds ids that stand twice in one list. Whole-machine work before and after the parts is one list.
 *
 * @param document of the right shape
 */
export function idFaults(document: EstimateDocument): Fault[] {
  const { wholeMachine, acquisition } = document;
  const routes = routePlaces(document);
  const lists: Identified[][] = [
    placesOf("/drivers", document.drivers),
    placesOf("/suppliers", document.suppliers),
    [
      ...placesOf("/wholeMachine/before", wholeMachine?.before),
      ...placesOf("/wholeMachine/after", wholeMachine?.after),
    ],
    placesOf("/parts", document.parts),
    ...placesOf("/parts", document.parts).map(({ pointer, entry }) =>
      placesOf(`${pointer}/routes`, entry.routes),
    ),
    ...routes.map(({ pointer, entry }) => placesOf(`${pointer}/operations`, entry.operations)),
    ...routes
      .flatMap(({ pointer, entry }) => placesOf(`${pointer}/purchase/outcomes`, entry.purchase?.outcomes))
      .map(({ pointer, entry }) => placesOf(`${pointer}/operations`, entry.operations)),
    placesOf("/findings", document.findings),
    placesOf("/overheads", document.overheads),
    placesOf("/acquisition/extras", acquisition?.extras),
    placesOf("/paths", document.paths),
  ];
  return lists.flatMap(duplicates);
}

function duplicates(list: readonly Identified[]): Fault[] {
  const first = new Map<string, string>();
  return list.flatMap(({ pointer, entry: { id } }) => {
    const earlier = first.get(id);
    if (earlier !== undefined)
      return [faultAt(`${pointer}/id`, id, `an id stands once in its list: also at ${earlier}`)];
    first.set(id, `${pointer}/id`);
    return [];
  });
}
