import { describe, expect, test } from "vitest";
import type { Supplier } from "../../src/domain/estimate-document.ts";
import type { Operation } from "../../src/domain/operation.ts";
import type { Part } from "../../src/domain/part.ts";
import { simulate } from "../../src/simulation/simulate.ts";
import { documentWith, partWith } from "./small-document.ts";

const draws = 64;

const own = (id: string, hours: number): Operation => ({
  id,
  name: id,
  trade: "general",
  hours,
  by: "owner",
});
const away = (id: string, supplier: string, more: Partial<Operation> = {}): Operation => ({
  id,
  name: id,
  trade: "plating",
  supplier,
  ...more,
});
const shop = (id: string, leadWeeks: number): Operation => ({ id, name: id, trade: "general", leadWeeks });
const plater: Supplier = { id: "plater", name: "Plater", trade: "plating", leadWeeks: 4, batchCharge: 30 };
const painter: Supplier = { id: "painter", name: "Painter", trade: "paint", leadWeeks: 2, batchCharge: 50 };
const chain = (id: string, ...operations: Operation[]): Part =>
  partWith(id, [{ id: "only", method: "repair", operations }]);

/** Strip-down and assembly of 20 hours each: two weeks before and two after at 10 hours a week. */
const wholeMachine = { before: [own("strip-down", 20)], after: [own("assembly", 20)] };

function certainWeeks(document: Parameters<typeof simulate>[0]): number {
  const { weeks } = simulate(document, { draws });
  expect(weeks.mean.standardError).toBe(0);
  expect(weeks.p10.value).toBe(weeks.p90.value);
  return weeks.mean.value;
}

describe("hand-worked schedules", () => {
  test("one lot: 2 + 1 + .5 + 4 + .5 + .5 + 2 = 10.5 weeks", () => {
    // Worked in the design: 10 h a week; A prepare 10 h, B prepare 5 h, one departure of 4 weeks, refit 5 h each.
    const document = documentWith({
      wholeMachine,
      suppliers: [plater],
      parts: [
        chain("a", own("prepare", 10), away("plate", "plater"), own("refit", 5)),
        chain("b", own("prepare", 5), away("plate", "plater"), own("refit", 5)),
      ],
    });
    expect(certainWeeks(document)).toBeCloseTo(10.5, 9);
  });

  test("strip at the plater, weld at home, back to the plater: two departures, 14 weeks", () => {
    // 2 strip-down. A waits at the plater from 2, B is prepared 2 - 2.5; departure 1 leaves at 2.5, is back at 6.5.
    // The owner prefers A's weld (1 + 4 + .5 to go) to B's refit (.5): 6.5 - 7.5. Departure 2 leaves with A at 7.5 and
    // is back at 11.5; B's refit 7.5 - 8. A's refit 11.5 - 12. Assembly 12 - 14.
    const document = documentWith({
      wholeMachine,
      suppliers: [plater],
      parts: [
        chain("a", away("strip", "plater"), own("weld", 10), away("plate", "plater"), own("refit", 5)),
        chain("b", own("prepare", 5), away("plate", "plater"), own("refit", 5)),
      ],
    });
    expect(certainWeeks(document)).toBeCloseTo(14, 9);
    const [supplier] = simulate(document, { draws }).suppliers;
    expect(supplier!.departures).toEqual({ value: 2, standardError: 0 });
    expect(supplier!.cash.mean.value).toBe(60);
  });

  test("two suppliers whose departures wait for each other: the first declared goes early, 10 weeks", () => {
    // A: plater, then painter. B: painter, then plater. Each departure waits for the other part: nothing can move at 0.
    // The plater's departure leaves at 0 with A and is back at 4. The painter's is then complete (B since 0, A at 4):
    // back at 6. B reaches the plater, whose departure has left: it goes alone, with the same 4 weeks: 6 - 10.
    const document = documentWith({
      suppliers: [plater, painter],
      parts: [
        chain("a", away("plate", "plater"), away("spray", "painter")),
        chain("b", away("spray", "painter"), away("plate", "plater")),
      ],
    });
    expect(certainWeeks(document)).toBeCloseTo(10, 9);
    const { suppliers } = simulate(document, { draws });
    expect(suppliers.map((supplier) => supplier.departures.value)).toEqual([1, 1]);
    expect(suppliers.map((supplier) => supplier.cash.mean.value)).toEqual([30, 50]);
  });

  test("a hunted part does not hold the lot: the planned departure leaves without it, 104 weeks", () => {
    // A is at the plater 0 - 4 and then away for 100 weeks: 104. The hunted part's plating goes with the late series
    // whenever it is found, a few weeks on. Were it waited for, every draw would end later than 104.
    const document = documentWith({
      suppliers: [plater],
      parts: [
        chain("a", away("plate", "plater"), shop("engrave", 100)),
        partWith("hunted", [
          {
            id: "used",
            method: "used",
            purchase: { findsPerMonth: 4, judgedAfter: "buy" },
            operations: [{ id: "buy", name: "Buy", trade: "parts", cost: 40 }, away("plate", "plater")],
          },
        ]),
      ],
    });
    expect(certainWeeks(document)).toBeCloseTo(104, 9);
    expect(simulate(document, { draws }).suppliers[0]!.departures.value).toBe(2);
  });
});

describe("nothing can move", () => {
  // A decision, not a truth of the trade: a hunt that is on counts as movement, so lots that wait for each other wait
  // for its end too. The pair alone takes 10 weeks (above); here the hunt is given up at 12 months = week 52.
  test("only when no hunt is on either: 52 + 10 weeks", () => {
    const document = documentWith({
      suppliers: [plater, painter],
      parts: [
        chain("a", away("plate", "plater"), away("spray", "painter")),
        chain("b", away("spray", "painter"), away("plate", "plater")),
        partWith("never", [
          {
            id: "hunt",
            method: "new-old-stock",
            operations: [],
            purchase: { findsPerMonth: 1e-6, patienceMonths: 12 },
          },
        ]),
      ],
    });
    expect(certainWeeks(document)).toBeCloseTo(62, 9);
  });
});

describe("the owner's order of work", () => {
  test("the chain with the longest way to go comes first, whatever its place", () => {
    // B still has 4 weeks at the plater before it: B 0 - .5, away until 4.5, refit 4.5 - 5. A is done meanwhile.
    // In document order it would be A 0 - 1, B 1 - 1.5, away until 5.5, refit until 6.
    const document = documentWith({
      suppliers: [plater],
      parts: [
        chain("a", own("polish", 10)),
        chain("b", own("prepare", 5), away("plate", "plater"), own("refit", 5)),
      ],
    });
    expect(certainWeeks(document)).toBeCloseTo(5, 9);
  });

  test("`after` holds an operation until the other part's is finished", () => {
    // Wiring (10 h) waits for the frame's coating, back at 4; polishing (20 h) fills 0 - 2. 4 - 5.
    const document = documentWith({
      suppliers: [plater],
      parts: [
        chain("frame", away("coat", "plater")),
        chain("loom", { ...own("wiring", 10), after: ["frame/only/coat"] }),
        chain("cases", own("polish", 20)),
      ],
    });
    expect(certainWeeks(document)).toBeCloseTo(5, 9);
  });

  test("an operation that is not done in the draw does not bind", () => {
    const document = documentWith({
      suppliers: [plater],
      parts: [
        partWith("frame", [
          { id: "first", method: "repair", operations: [own("dress", 5)] },
          { id: "second", method: "reproduction", operations: [away("coat", "plater")] },
        ]),
        chain("loom", { ...own("wiring", 10), after: ["frame/second/coat"] }),
      ],
    });
    expect(certainWeeks(document)).toBeCloseTo(1.5, 9);
  });

  test("a finding takes its time once, before the first route on which it must be paid for", () => {
    // Dress 5 h on the first route, which fails; straighten 10 h (found) before the second, then coat 4 weeks.
    const document = documentWith({
      suppliers: [plater],
      parts: [
        partWith("frame", [
          {
            id: "first",
            method: "repair",
            operations: [own("dress", 5)],
            failure: { probability: 1, after: "dress" },
          },
          { id: "second", method: "powder-coat", operations: [away("coat", "plater")] },
        ]),
      ],
      findings: [
        {
          id: "bent",
          name: "Bent",
          probability: 1,
          hours: 10,
          by: "owner",
          trade: "bodywork",
          part: "frame",
          onRoutes: ["second"],
          revealedAt: "strip-down",
        },
      ],
    });
    expect(certainWeeks(document)).toBeCloseTo(0.5 + 1 + 4, 9);
  });

  test("a shop without lead time works 40 hours a week", () => {
    const document = documentWith({
      labour: { ownHourValue: 0, ownHoursPerWeek: 10, shopRates: { machining: 80 } },
      parts: [
        chain("head", { id: "skim", name: "Skim", trade: "machining", hours: 60, by: "shop" }),
        chain("cases", { id: "weld", name: "Weld", trade: "machining", hours: 60, by: "shop", leadWeeks: 1 }),
      ],
    });
    expect(certainWeeks(document)).toBeCloseTo(1.5, 9);
    expect(simulate(document, { draws }).restoration.cash.mean.value).toBe(2 * 60 * 80);
  });
});
