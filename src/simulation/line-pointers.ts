import type { EstimateDocument } from "../domain/estimate-document.ts";
import { placesOf } from "../domain/places.ts";

/**
 * JSON Pointers to what the lines of a document stand for, in the order of its lines: parts, suppliers, findings,
 * overheads, whole-machine work.
 */
export function linePointers(document: EstimateDocument): string[] {
  const { parts, suppliers, findings, overheads, wholeMachine } = document;
  return [
    ...placesOf("/parts", parts),
    ...placesOf("/suppliers", suppliers),
    ...placesOf("/findings", findings),
    ...placesOf("/overheads", overheads),
    ...placesOf("/wholeMachine/before", wholeMachine?.before),
    ...placesOf("/wholeMachine/after", wholeMachine?.after),
  ].map(({ pointer }) => pointer);
}
