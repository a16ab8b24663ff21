import { expect, test } from "vitest";
import type { EstimateDocument, Supplier } from "../../src/domain/estimate-document.ts";
import type { Operation } from "../../src/domain/operation.ts";
import { simulate } from "../../src/simulation/simulate.ts";
import { documentWith, partWith } from "./small-document.ts";

const own = (id: string, hours: number): Operation => ({
  id,
  name: id,
  trade: "general",
  hours,
  by: "owner",
});
const away = (supplier: string): Operation => ({ id: "send", name: "Send", trade: "plating", supplier });
const shop = (id: string, leadWeeks: Operation["leadWeeks"]): Operation => ({
  id,
  name: id,
  trade: "general",
  ...(leadWeeks !== undefined && { leadWeeks }),
});
const plater: Supplier = { id: "plater", name: "Plater", trade: "plating", leadWeeks: 4 };
const wholeMachine = { before: [own("strip-down", 20)], after: [own("assembly", 20)] };
const part = (id: string, ...operations: Operation[]) =>
  partWith(id, [{ id: "only", method: "repair", operations }]);

/** Shares by path, of what is ever on the critical path. */
function sharesOf(document: EstimateDocument): Record<string, number> {
  const { critical } = simulate(document, { draws: 64 });
  return Object.fromEntries(critical!.map(({ path, share }) => [path, share.value]));
}

test("the critical path runs through the owner's queue and the visit that its departure waits for", () => {
  // 10 h a week. Strip-down 0 - 2. The owner prepares A 2 - 3 (5.5 weeks to go), then B 3 - 3.5: the plater's departure
  // waits for B and is back at 7.5. Refits 7.5 - 8 and 8 - 8.5, A's first by document order; assembly to 10.5. Traced back:
  // B's refit began when A's was done, A's when its visit was back, which left when B was prepared, which began when A was.
  const shares = sharesOf(
    documentWith({
      wholeMachine,
      suppliers: [plater],
      parts: [
        part("a", own("prepare", 10), away("plater"), own("refit", 5)),
        part("b", own("prepare", 5), away("plater"), own("refit", 5)),
      ],
    }),
  );
  expect(shares).toEqual({
    "whole/strip-down": 1,
    "a/only/prepare": 1,
    "b/only/prepare": 1,
    "a/only/send": 1,
    "a/only/refit": 1,
    "b/only/refit": 1,
    "whole/assembly": 1,
  });
});

test("what has time to spare is not on the critical path", () => {
  // A is away for 6 weeks, B for 2: only A's shop holds up the assembly.
  const shares = sharesOf(
    documentWith({ wholeMachine, parts: [part("a", shop("bore", 6)), part("b", shop("grind", 2))] }),
  );
  expect(shares).toEqual({ "whole/strip-down": 1, "a/only/bore": 1, "whole/assembly": 1 });
});

test("an operation that another part waits for passes the path on", () => {
  const after = { ...shop("grind", 2), after: ["a/only/bore"] };
  const shares = sharesOf(
    documentWith({ wholeMachine, parts: [part("a", shop("bore", 6)), part("b", after)] }),
  );
  expect(shares).toEqual({
    "whole/strip-down": 1,
    "a/only/bore": 1,
    "b/only/grind": 1,
    "whole/assembly": 1,
  });
});

test("a hunt that outlasts everything began by itself: what was done before the parts did not matter", () => {
  // Something is found after 1e6 weeks or so, long after the two of strip-down.
  const hunted = partWith("a", [
    { id: "only", method: "used", operations: [shop("buy", 1)], purchase: { findsPerMonth: 1e-6 } },
  ]);
  expect(sharesOf(documentWith({ wholeMachine, parts: [hunted] }))).toEqual({
    "a/only/buy": 1,
    "whole/assembly": 1,
  });
});

// Statistical, fixed seed: of two shops with the same exponential lead, each is the later one in half of the draws. Standard
// error of a share at 64 draws .0625, five of which are allowed; the two shares add up to 1 exactly.
test("two shops alike are critical half of the time each", () => {
  const weeks = { kind: "exponential", mean: 3 } as const;
  const shares = sharesOf(
    documentWith({ parts: [part("a", shop("bore", weeks)), part("b", shop("grind", weeks))] }),
  );
  expect(shares["a/only/bore"]! + shares["b/only/grind"]!).toBe(1);
  expect(Math.abs(shares["a/only/bore"]! - 0.5)).toBeLessThan(5 * 0.0625);
});
