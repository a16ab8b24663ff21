import type { EstimateDocument } from "./estimate-document.ts";
import type { Operation } from "./operation.ts";
import { perDocument } from "./per-document.ts";
import { type Place, placesOf } from "./places.ts";
import { type RoutePlace, routePlaces } from "./route-places.ts";

/** An operation with the way to it and the list it stands in. */
export interface OperationPlace extends Place<Operation> {
  /** `whole`, `part/route`, or `part/route/outcome-2` for the rework of the second outcome. */
  readonly list: string;
  /** True for the operations and the rework of a route that is a purchase. */
  readonly isBought: boolean;
}

/**
 * Lists every operation: whole-machine work, then the routes', each with its rework after it.
 *
 * @param document of the right shape
 */
export const operationPlaces = perDocument((document: EstimateDocument): readonly OperationPlace[] => {
  const { before, after } = document.wholeMachine ?? {};
  const whole = [...placesOf("/wholeMachine/before", before), ...placesOf("/wholeMachine/after", after)];
  return [
    ...whole.map((place) => ({ ...place, list: "whole", isBought: false })),
    ...routePlaces(document).flatMap(operationsOf),
  ];
});

function operationsOf({ pointer, part, entry: route }: RoutePlace): OperationPlace[] {
  const { operations, purchase } = route;
  const list = `${part.id}/${route.id}`;
  const within = { list, isBought: purchase !== undefined };
  return [
    ...placesOf(`${pointer}/operations`, operations).map((place) => ({ ...place, ...within })),
    ...placesOf(`${pointer}/purchase/outcomes`, purchase?.outcomes).flatMap((outcome, position) =>
      placesOf(`${outcome.pointer}/operations`, outcome.entry.operations).map((place) => ({
        ...place,
        list: `${list}/outcome-${position + 1}`,
        isBought: true,
      })),
    ),
  ];
}
