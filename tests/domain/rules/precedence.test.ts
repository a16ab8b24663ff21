import { describe, expect, test } from "vitest";
import { faultsOf } from "../faults-of.ts";
import { documentOf, part, ring, route } from "./chain-document.ts";
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

  test("once for each entry that closes one, though it closes several", () => {
    const parts = [
      part("a", route("r", { id: "x", after: ["b/r/y", "c/r/z"] })),
      part("b", route("r", { id: "y", after: ["a/r/x", "c/r/z"] })),
      part("c", route("r", { id: "z", after: ["a/r/x"] })),
    ];
    const pointers = faultsOf(documentOf(parts)).map((line) => line.split("  ")[0]);
    expect(pointers).toContain("/parts/0/routes/0/operations/0/after/0");
    expect(new Set(pointers).size).toBe(pointers.length);
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
