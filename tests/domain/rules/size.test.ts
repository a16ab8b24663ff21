import { expect, test } from "vitest";
import { operationPlaces } from "../../../src/domain/operation-places.ts";
import { baseDocument } from "../base-document.ts";
import { faultsOf } from "../faults-of.ts";

test("sizeFaults() counts routes, rework and whole-machine work together: 2,000 but not 2,001", () => {
  const document = baseDocument();
  const added = document.parts[2]!.routes[0]!.operations;
  const operation = (id: number) => ({ id: `more-${id}`, name: "More", trade: "general" as const });
  for (let id = operationPlaces(document).length; id < 2000; id++) added.push(operation(id));
  expect(faultsOf(document)).toEqual([]);
  added.push(operation(2000));
  expect(faultsOf(document)).toEqual([
    "  2001 operations  at most 2000 operations: routes, rework and whole machine",
  ]);
});
