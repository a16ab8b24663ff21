import type { EstimateDocument } from "../domain/estimate-document.ts";
import type { Operation } from "../domain/operation.ts";
import type { Part } from "../domain/part.ts";

/** Every operation a document holds, rework and whole-machine work included. */
export function operationsOf({ wholeMachine, parts }: EstimateDocument): Operation[] {
  return [
    ...(wholeMachine?.before ?? []),
    ...parts.flatMap(operationsOfPart),
    ...(wholeMachine?.after ?? []),
  ];
}

/** Every operation on one part's routes, rework included. */
export function operationsOfPart({ routes }: Part): Operation[] {
  return routes.flatMap(({ operations, purchase }) => [
    ...operations,
    ...(purchase?.outcomes ?? []).flatMap((outcome) => outcome.operations ?? []),
  ]);
}
