import type { EstimateDocument } from "../../../src/domain/estimate-document.ts";
import type { Operation } from "../../../src/domain/operation.ts";
import type { Part, Route } from "../../../src/domain/part.ts";
import { baseDocument } from "../base-document.ts";

/** What matters of an operation; the rest is filled in. */
export type Given = Partial<Operation> & { id: string };

export const operation = (given: Given): Operation => ({ name: given.id, trade: "general", ...given });

export const route = (id: string, ...operations: Given[]): Route => ({
  id,
  method: "repair",
  operations: operations.map(operation),
});

export const part = (id: string, ...routes: Route[]): Part => ({
  id,
  name: id,
  class: "frame",
  condition: { band: "sound" },
  routes,
});

/** A document of these parts alone, with whole-machine work where given. */
export function documentOf(parts: Part[], before: Given[] = [], after: Given[] = []): EstimateDocument {
  const document = baseDocument();
  delete document.paths;
  const wholeMachine = { before: before.map(operation), after: after.map(operation) };
  return { ...document, findings: [], wholeMachine, parts };
}

/** The line of a ring at one entry of an `after`. */
export const ring = (pointer: string, value: string, sentence: string) =>
  `${pointer}  "${value}"  operations cannot wait in a ring: ${sentence}`;
