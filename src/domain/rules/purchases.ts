import type { EstimateDocument } from "../estimate-document.ts";
import { type Fault, faultAt } from "../fault.ts";
import type { Outcome } from "../part.ts";
import { type Place, placesOf } from "../places.ts";
import { type RoutePlace, routePlaces } from "../route-places.ts";
import { sumFaults } from "./sum-faults.ts";

/**
 * Finds purchases that wait for nothing, are judged at no operation, or whose outcomes do not make sense.
 *
 * @param document of the right shape
 */
export function purchaseFaults(document: EstimateDocument): Fault[] {
  return routePlaces(document).flatMap(({ pointer, entry: { operations, purchase } }: RoutePlace) => {
    if (purchase === undefined) return [];
    const at = `${pointer}/purchase`;
    const { findsPerMonth, patienceMonths, judgedAfter, outcomes } = purchase;
    const isIdle = patienceMonths !== undefined && findsPerMonth === undefined;
    const isNamed = judgedAfter === undefined || operations.some(({ id }) => id === judgedAfter);
    return [
      ...(isIdle
        ? [faultAt(`${at}/patienceMonths`, patienceMonths, "patienceMonths needs findsPerMonth")]
        : []),
      ...(isNamed ? [] : [faultAt(`${at}/judgedAfter`, judgedAfter, "must name an operation of the route")]),
      ...(outcomes ? outcomesFaults(`${at}/outcomes`, outcomes) : []),
    ];
  });
}

function outcomesFaults(pointer: string, outcomes: readonly Outcome[]): Fault[] {
  const probabilities = outcomes.map(({ probability }) => probability);
  return [
    ...sumFaults(pointer, probabilities, "the probabilities of the outcomes sum to 1"),
    ...placesOf(pointer, outcomes).flatMap(outcomeFaults),
  ];
}

function outcomeFaults({ pointer, entry: { result, operations, recovers } }: Place<Outcome>): Fault[] {
  const isWorkless = operations !== undefined && result !== "rework";
  const isReturnless = recovers !== undefined && result !== "useless";
  return [
    ...(isWorkless ? [faultAt(`${pointer}/operations`, operations, "only a rework has operations")] : []),
    ...(isReturnless
      ? [faultAt(`${pointer}/recovers`, recovers, "only what is useless recovers anything")]
      : []),
  ];
}
