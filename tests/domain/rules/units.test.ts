import { describe, expect, test } from "vitest";
import type { Part, Route } from "../../../src/domain/part.ts";
import { faultsOf } from "../faults-of.ts";
import { type Given, documentOf, operation, part, ring, route } from "./chain-document.ts";

describe("precedenceFaults() treats a visit as one", () => {
  const away = { supplier: "coater", lot: "black" };
  const parts = (second: Given) => [
    part("a", route("r", { id: "strip", ...away }, second)),
    part("b", route("r", { id: "weld", after: ["a/r/strip"] })),
  ];

  test("so the middle of it cannot wait for what follows its beginning", () => {
    expect(faultsOf(documentOf(parts({ id: "coat", ...away, after: ["b/r/weld"] })))).toEqual([
      ring(
        "/parts/0/routes/0/operations/1/after/0",
        "b/r/weld",
        "a/r/coat waits for b/r/weld, which waits for a/r/strip, which goes with a/r/coat",
      ),
    ]);
  });

  test("but two lots are two visits", () => {
    const second = { id: "coat", ...away, lot: "red", after: ["b/r/weld"] };
    expect(faultsOf(documentOf(parts(second)))).toEqual([]);
  });

  test("and one may wait for another of the same visit", () => {
    const alone = [
      part("a", route("r", { id: "strip", ...away }, { id: "coat", ...away, after: ["strip"] })),
    ];
    expect(faultsOf(documentOf(alone))).toEqual([]);
  });

  test("also where what stands between is done", () => {
    const split = (state: "done" | "to-do") => [
      part(
        "a",
        route(
          "r",
          { id: "strip", ...away },
          { id: "file", state },
          { id: "coat", ...away, after: ["b/r/weld"] },
        ),
      ),
      part("b", route("r", { id: "weld", after: ["a/r/strip"] })),
    ];
    expect(faultsOf(documentOf(split("to-do")))).toEqual([]);
    expect(faultsOf(documentOf(split("done")))).toHaveLength(1);
  });
});

describe("precedenceFaults() treats what is done in every try as one", () => {
  const bought = (tries: number, rework: Given[] = []): Part => {
    const hunt = route("hunt", { id: "order" }, { id: "check", after: ["b/r/fetch"] }, { id: "paint" });
    const outcomes: NonNullable<Route["purchase"]>["outcomes"] = [
      { probability: 0.5, result: "right" },
      { probability: 0.5, result: "rework", operations: rework.map(operation) },
    ];
    return part("a", { ...hunt, purchase: { tries, judgedAfter: "check", outcomes } });
  };
  const fetch = (...after: string[]) => part("b", route("r", { id: "fetch", after }));

  test("so none of it can wait for what waits for another of it, where there may be another try", () => {
    expect(faultsOf(documentOf([bought(1), fetch("a/hunt/order")]))).toEqual([]);
    expect(faultsOf(documentOf([bought(2), fetch("a/hunt/order")]))).toEqual([
      ring(
        "/parts/0/routes/0/operations/1/after/0",
        "b/r/fetch",
        "a/hunt/check waits for b/r/fetch, which waits for a/hunt/order, " + "which goes with a/hunt/check",
      ),
    ]);
  });

  test("and rework stands before the rest", () => {
    const rework = [{ id: "bend", after: ["c/r/lend"] }];
    const lend = (after: string) => part("c", route("r", { id: "lend", after: [after] }));
    expect(faultsOf(documentOf([bought(3, rework), fetch(), lend("a/hunt/check")]))).toEqual([]);
    expect(faultsOf(documentOf([bought(3, rework), fetch(), lend("a/hunt/paint")]))).toEqual([
      ring(
        "/parts/0/routes/0/purchase/outcomes/1/operations/0/after/0",
        "c/r/lend",
        "a/hunt/outcome-2/bend waits for c/r/lend, which waits for a/hunt/paint, which follows a/hunt/outcome-2/bend",
      ),
    ]);
  });
});
