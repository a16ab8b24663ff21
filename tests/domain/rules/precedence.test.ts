import fc from "fast-check";
import { describe, expect, test } from "vitest";
import type { EstimateDocument } from "../../../src/domain/estimate-document.ts";
import type { Operation } from "../../../src/domain/operation.ts";
import type { Part, Route } from "../../../src/domain/part.ts";
import { baseDocument } from "../base-document.ts";
import { faultsOf } from "../faults-of.ts";
import { testRuleCases } from "../rule-cases.ts";

const at = "/parts/0/routes/0/operations/3/after/0";
const unknown = (value: string) =>
  `${at}  "${value}"  must name an operation: an id of the same list, part/route/operation or whole/operation`;

testRuleCases("precedenceFaults() wants operations that exist", [
  [at, "powder", "dress", unknown("dress")],
  [at, "whole/strip-down", "whole/powder", unknown("whole/powder")],
  [at, "lid/hunt/order", "lid/hunt/fill", unknown("lid/hunt/fill")],
  [at, "tank/repaint/old", "lid/hunt/outcome-2/fill", unknown("lid/hunt/outcome-2/fill")],
  [at, "tank/fitted-one/pay", "findings/stud", unknown("findings/stud")],
  [at, "strip", "coat/strip", unknown("coat/strip")],
  [at, "blast", "/", unknown("/")],
]);

testRuleCases("precedenceFaults() wants rework named in its own list only", [
  [
    "/parts/1/routes/0/purchase/outcomes/1/operations/1/after/0",
    "dress",
    "order",
    "/parts/1/routes/0/purchase/outcomes/1/operations/1/after/0" +
      '  "order"  must name an operation: an id of the same list, part/route/operation or whole/operation',
  ],
]);

type Given = Partial<Operation> & { id: string };

const operation = (given: Given): Operation => ({ name: given.id, trade: "general", ...given });
const route = (id: string, ...operations: Given[]): Route => ({
  id,
  method: "repair",
  operations: operations.map(operation),
});
const part = (id: string, ...routes: Route[]): Part => ({
  id,
  name: id,
  class: "frame",
  condition: { band: "sound" },
  routes,
});

/** A document of these parts alone, with whole-machine work where given. */
function documentOf(parts: Part[], before: Given[] = [], after: Given[] = []): EstimateDocument {
  const { findings: _, paths: __, wholeMachine: ___, ...rest } = baseDocument();
  const wholeMachine = { before: before.map(operation), after: after.map(operation) };
  return { ...rest, findings: [], wholeMachine, parts };
}

const ring = (pointer: string, value: string, sentence: string) =>
  `${pointer}  "${value}"  operations cannot wait in a ring: ${sentence}`;

describe("precedenceFaults() finds a ring", () => {
  test("of an operation that waits for itself", () => {
    expect(faultsOf(documentOf([part("a", route("r", { id: "x", after: ["x"] }))]))).toEqual([
      ring("/parts/0/routes/0/operations/0/after/0", "x", "a/r/x waits for a/r/x"),
    ]);
  });

  test("of two operations, reported once", () => {
    const parts = [
      part("a", route("r", { id: "x", after: ["b/r/y"] })),
      part("b", route("r", { id: "y", after: ["a/r/x"] })),
    ];
    expect(faultsOf(documentOf(parts))).toEqual([
      ring("/parts/0/routes/0/operations/0/after/0", "b/r/y", "a/r/x waits for b/r/y, which waits for a/r/x"),
    ]);
  });

  test("through the order of a list, however long", () => {
    const parts = [
      part(
        "a",
        route("r", { id: "first", after: ["last"] }, { id: "second" }, { id: "third" }, { id: "last" }),
      ),
    ];
    expect(faultsOf(documentOf(parts))).toEqual([
      ring(
        "/parts/0/routes/0/operations/0/after/0",
        "last",
        "a/r/first waits for a/r/last, which follows a/r/first",
      ),
    ]);
  });

  test("through the order of a part's routes, an empty one between them", () => {
    const parts = [
      part("a", route("r", { id: "x", after: ["b/r/y"] }), route("none"), route("s", { id: "z" })),
      part("b", route("r", { id: "y", after: ["a/s/z"] })),
    ];
    expect(faultsOf(documentOf(parts))).toEqual([
      ring(
        "/parts/0/routes/0/operations/0/after/0",
        "b/r/y",
        "a/r/x waits for b/r/y, which waits for a/s/z, which follows a/r/x",
      ),
    ]);
  });

  test("through whole-machine work before and after the parts", () => {
    const parts = [part("a", route("r", { id: "x" }))];
    expect(faultsOf(documentOf(parts, [{ id: "strip", after: ["a/r/x"] }]))).toEqual([
      ring(
        "/wholeMachine/before/0/after/0",
        "a/r/x",
        "whole/strip waits for a/r/x, which follows whole/strip",
      ),
    ]);
    const waiting = [part("a", route("r", { id: "x", after: ["whole/test"] }))];
    expect(faultsOf(documentOf(waiting, [], [{ id: "assembly" }, { id: "test" }]))).toEqual([
      ring(
        "/parts/0/routes/0/operations/0/after/0",
        "whole/test",
        "a/r/x waits for whole/test, which follows a/r/x",
      ),
    ]);
  });

  test("twice where there are two", () => {
    const parts = [
      part("a", route("r", { id: "x", after: ["x"] })),
      part("b", route("r", { id: "y", after: ["y"] })),
    ];
    expect(faultsOf(documentOf(parts))).toHaveLength(2);
  });

  test("among 2,000 operations in one chain", () => {
    const chain = Array.from({ length: 2000 }, (_, index) => ({ id: `x${index}` }));
    const [first, ...more] = chain;
    const innocent = [...chain.slice(0, -1), { id: "x1999", after: ["x0", "x1998"] }];
    expect(faultsOf(documentOf([part("a", route("r", ...innocent))]))).toEqual([]);
    expect(faultsOf(documentOf([part("a", route("r", { ...first!, after: ["x1999"] }, ...more))]))).toEqual([
      ring(
        "/parts/0/routes/0/operations/0/after/0",
        "x1999",
        "a/r/x0 waits for a/r/x1999, which follows a/r/x0",
      ),
    ]);
  });

  test("and says no more of a long one than can be read", () => {
    const parts = Array.from({ length: 20 }, (_, index) =>
      part(`p${index}`, route("r", { id: "x", after: [`p${(index + 1) % 20}/r/x`] })),
    );
    const [line] = faultsOf(documentOf(parts));
    expect(line).toMatch(
      /^\/parts\/0\/.*p0\/r\/x waits for p1\/r\/x, .*, which waits for p12\/r\/x, and so on$/,
    );
  });
});

describe("precedenceFaults() allows", () => {
  test("waiting for what comes earlier anyway", () => {
    const parts = [
      part(
        "a",
        route("r", { id: "x" }, { id: "y", after: ["x", "whole/strip"] }),
        route("s", { id: "z", after: ["a/r/y"] }),
      ),
    ];
    const after = [{ id: "assembly", after: ["strip", "a/s/z"] }];
    expect(faultsOf(documentOf(parts, [{ id: "strip" }], after))).toEqual([]);
  });

  test("two parts waiting for each other in turn", () => {
    const parts = [
      part("a", route("r", { id: "x" }, { id: "y", after: ["b/r/x"] })),
      part("b", route("r", { id: "x", after: ["a/r/x"] }, { id: "y", after: ["a/r/y"] })),
    ];
    expect(faultsOf(documentOf(parts))).toEqual([]);
  });
});

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

describe("precedenceFaults() (property)", () => {
  /** For each part the sizes of its routes, and who waits for whom by the numbers of all operations in order. */
  const drawn = fc.record({
    sizes: fc.array(fc.array(fc.nat({ max: 3 }), { minLength: 1, maxLength: 3 }), {
      minLength: 1,
      maxLength: 3,
    }),
    before: fc.nat({ max: 2 }),
    after: fc.nat({ max: 2 }),
    waits: fc.array(fc.tuple(fc.nat({ max: 40 }), fc.nat({ max: 40 })), { maxLength: 6 }),
  });

  test("finds a ring exactly where some operation would come before itself", () => {
    let [ringed, clear] = [0, 0];
    fc.assert(
      fc.property(drawn, ({ sizes, before, after, waits }) => {
        const names = (prefix: string, count: number) =>
          Array.from({ length: count }, (_, id) => `${prefix}/x${id}`);
        const first = names("whole/before", before).map((name) => name.replace("before/", "b-"));
        const last = names("whole/after", after).map((name) => name.replace("after/", "a-"));
        const chains = sizes.map((routes, p) => routes.map((count, r) => names(`p${p}/r${r}`, count)));
        const all = [...first, ...chains.flat(2), ...last];
        if (all.length === 0) return;
        const waiting = waits.map(
          ([one, other]) => [all[one % all.length]!, all[other % all.length]!] as const,
        );
        const given = (name: string): Given => {
          const named = waiting.filter(([waits]) => waits === name).map(([, waitedFor]) => waitedFor);
          return { id: name.split("/").at(-1)!, after: named };
        };
        const parts = chains.map((routes, p) =>
          part(`p${p}`, ...routes.map((list, r) => route(`r${r}`, ...list.map(given)))),
        );
        const document = documentOf(parts, first.map(given), last.map(given));
        const isRinged = comesBeforeItself(all, [...inOrder(first, chains, last), ...waiting]);
        expect(faultsOf(document).length > 0).toBe(isRinged);
        if (isRinged) ringed += 1;
        else clear += 1;
      }),
      { numRuns: 400 },
    );
    expect(Math.min(ringed, clear)).toBeGreaterThan(20);
  });

  type Pair = readonly [later: string, earlier: string];

  /** Every pair of operations of which the lists alone say which is the earlier. */
  function inOrder(first: string[], chains: string[][][], last: string[]): Pair[] {
    const sequences = chains.map((routes) => [...first, ...routes.flat(), ...last]);
    return [[...first, ...last], ...sequences].flatMap((sequence) =>
      sequence.flatMap((later, place) => sequence.slice(0, place).map((earlier): Pair => [later, earlier])),
    );
  }

  /** By transitive closure, Warshall's way. */
  function comesBeforeItself(all: string[], pairs: Pair[]): boolean {
    const before = new Map(all.map((name) => [name, new Set<string>()]));
    for (const [later, earlier] of pairs) before.get(later)!.add(earlier);
    for (const middle of all) {
      for (const [, earlier] of before) {
        if (earlier.has(middle)) for (const name of before.get(middle)!) earlier.add(name);
      }
    }
    return all.some((name) => before.get(name)!.has(name));
  }
});
