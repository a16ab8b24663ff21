import type { EstimateDocument } from "../estimate-document.ts";
import type { OperationPlace } from "../operation-places.ts";
import type { Operation } from "../operation.ts";
import type { Route } from "../part.ts";
import { type Place, placesOf } from "../places.ts";

/** The operations of one route, by position: some are done in every try, then perhaps one list of rework, then the rest. */
export interface RouteSequence {
  readonly judged: readonly number[];
  readonly rework: readonly (readonly number[])[];
  readonly rest: readonly number[];
  readonly tries: number;
}

/** All operations of a document in the order they are done, by position. */
export interface OperationSequences {
  readonly before: readonly number[];
  /** By part, then by route. */
  readonly parts: readonly (readonly RouteSequence[])[];
  readonly after: readonly number[];
}

/**
 * Puts the operations of a document in the order they are done.
 *
 * @param document of the right shape
 * @param places every operation of it; a position is one in this list
 */
export function operationSequences(
  document: EstimateDocument,
  places: readonly OperationPlace[],
): OperationSequences {
  const positions = new Map(places.map(({ pointer }, position) => [pointer, position]));
  const positionsOf = (pointer: string, list: readonly Operation[] | undefined) =>
    placesOf(pointer, list).map((place) => positions.get(place.pointer)!);
  const { before, after } = document.wholeMachine ?? {};
  return {
    before: positionsOf("/wholeMachine/before", before),
    parts: placesOf("/parts", document.parts).map(({ pointer, entry }) =>
      placesOf(`${pointer}/routes`, entry.routes).map((route) => routeSequence(route, positionsOf)),
    ),
    after: positionsOf("/wholeMachine/after", after),
  };
}

function routeSequence(
  { pointer, entry: { operations, purchase } }: Place<Route>,
  positionsOf: (pointer: string, list: readonly Operation[] | undefined) => number[],
): RouteSequence {
  const positions = positionsOf(`${pointer}/operations`, operations);
  const judgedAt = operations.findIndex(({ id }) => id === purchase?.judgedAfter);
  const judgedCount = judgedAt < 0 ? positions.length : judgedAt + 1;
  return {
    judged: positions.slice(0, judgedCount),
    rework: placesOf(`${pointer}/purchase/outcomes`, purchase?.outcomes)
      .map((outcome) => positionsOf(`${outcome.pointer}/operations`, outcome.entry.operations))
      .filter((list) => list.length > 0),
    rest: positions.slice(judgedCount),
    tries: purchase?.tries ?? 1,
  };
}
