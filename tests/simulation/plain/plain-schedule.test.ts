import { describe, expect, test } from "vitest";
import type { EstimateDocument, Supplier } from "../../../src/domain/estimate-document.ts";
import type { Operation } from "../../../src/domain/operation.ts";
import { plainDraw } from "./plain-draw.ts";
import { emptyDocument, operation, ownWork, part, route, scores } from "./plain-fixture.ts";

const supplier = (id: string, leadWeeks: number, fields: Partial<Supplier> = {}): Supplier => ({
  id,
  name: id,
  trade: "plating",
  leadWeeks,
  ...fields,
});

const at = (place: string, id: string, fields: Partial<Operation> = {}) =>
  operation(id, { trade: "plating", supplier: place, lot: "chrome", ...fields });

const weeksOf = (fields: Partial<EstimateDocument>, given: Record<string, number> = {}) =>
  plainDraw(emptyDocument(fields), scores(given)).weeks;

const hunted = (id: string, operations: Operation[], patienceMonths?: number) =>
  route(id, operations, {
    method: "used",
    purchase: { findsPerMonth: 1, ...(patienceMonths === undefined ? {} : { patienceMonths }) },
  });

// Phi(0) = 1/2, so a hunt whose score is 0 lasts ln 2 / 1 months of 52/12 weeks: 3.003638 weeks.
const medianHuntWeeks = (Math.LN2 * 52) / 12;

// Worked by hand from the rules of one draw; the arithmetic stands with each.
describe("plainDraw() schedules", () => {
  test("two parts in one plating lot between strip-down and assembly", () => {
    // A has 1 + 4 + .5 weeks to go, B .5 + 4 + .5: A is prepared first. 2 + 1 + .5 + 4 + .5 + .5 + 2 = 10.5.
    const chain = (hours: number) => [
      route("plate", [ownWork("prepare", hours), at("plater", "plate"), ownWork("refit", 5)]),
    ];
    const weeks = weeksOf({
      suppliers: [supplier("plater", 4)],
      wholeMachine: { before: [ownWork("strip", 20)], after: [ownWork("assemble", 20)] },
      parts: [part("b", chain(5)), part("a", chain(10))],
    });
    expect(weeks).toBeCloseTo(10.5, 9);
  });

  test("a strip at the plater, a weld at home and the plating as two departures", () => {
    // Departure 1 (A's strip, B) 0 to 3, weld 3 to 4, departure 2 (A's plating) 4 to 7. Minimum 200: top-ups
    // 200 - 45 - 80 = 75 and 200 - 165 = 35; 50 charge and freight each time: 75 + 35 + 100 = 210.
    const outcome = plainDraw(
      emptyDocument({
        suppliers: [supplier("plater", 3, { minimumCharge: 200, batchCharge: 30, freightPerBatch: 20 })],
        parts: [
          part("a", [
            route("replate", [
              at("plater", "strip", { cost: 45 }),
              ownWork("weld", 10),
              at("plater", "plate", { cost: 165 }),
            ]),
          ]),
          part("b", [route("replate", [at("plater", "plate", { cost: 80 })])]),
        ],
      }),
      scores(),
    );
    expect(outcome.weeks).toBeCloseTo(7, 9);
    expect(outcome.lines).toEqual([
      { id: "a", kind: "part", cash: 210 },
      { id: "b", kind: "part", cash: 80 },
      { id: "plater", kind: "supplier", cash: 210 },
    ]);
    expect(outcome.suppliers).toEqual([{ id: "plater", cash: 500, departures: 2 }]);
  });

  const crossed = [
    part("a", [route("both", [at("x", "first"), at("y", "second")])]),
    part("b", [route("both", [at("y", "first"), at("x", "second")])]),
  ];
  const crossedSuppliers = [supplier("x", 2, { batchCharge: 10 }), supplier("y", 3, { batchCharge: 100 })];

  test("two suppliers whose departures wait for each other", () => {
    // X is forced at 0 with A, back 2; Y then has both, 2 to 5; B goes to X by itself with the same 2 weeks: 7.
    // One departure of each all the same: 10 + 100.
    const outcome = plainDraw(emptyDocument({ suppliers: crossedSuppliers, parts: crossed }), scores());
    expect(outcome.weeks).toBeCloseTo(7, 9);
    expect(outcome.restorationCash).toBe(110);
  });

  test("a forced departure only once nothing else is under way", () => {
    // The owner's 15 hours end at 1.5: X leaves then. 1.5 + 2 + 3 + 2 = 8.5.
    const parts = [...crossed, part("c", [route("own", [ownWork("clean", 15)])])];
    expect(weeksOf({ suppliers: crossedSuppliers, parts })).toBeCloseTo(8.5, 9);
  });

  test("the departure whose supplier stands first as the forced one", () => {
    // Y first: B leaves at 0, back 3; X has both 3 to 5; A goes to Y by itself 5 to 8.
    expect(weeksOf({ suppliers: crossedSuppliers.toReversed(), parts: crossed })).toBeCloseTo(8, 9);
  });

  test("a hunted part without holding the lot", () => {
    // B's planned departure is back at 4, its refit done at 4.5; A's late one leaves when A is found: 3.003638 + 4.
    const outcome = plainDraw(
      emptyDocument({
        suppliers: [supplier("plater", 4, { batchCharge: 7 })],
        parts: [
          part("a", [hunted("used", [operation("buy"), at("plater", "plate")])]),
          part("b", [route("plate", [at("plater", "plate"), ownWork("refit", 5)])]),
        ],
      }),
      scores(),
    );
    expect(outcome.weeks).toBeCloseTo(medianHuntWeeks + 4, 9);
    expect(outcome.suppliers).toEqual([{ id: "plater", cash: 14, departures: 2 }]);
  });

  test("a hunt given up at its patience, counted from week 0 when it is tried first", () => {
    // Strip-down ends at 4 but the hunt began at 0: given up at 3 months = 13 weeks, then 2 weeks of making.
    const outcome = plainDraw(
      emptyDocument({
        wholeMachine: { before: [ownWork("strip", 40)] },
        parts: [
          part("lid", [
            hunted("used", [operation("buy", { cost: 50 })], 3),
            route("make", [operation("form", { cost: 100, leadWeeks: 2 })]),
          ]),
        ],
      }),
      scores({ "parts/lid/used|wait|1": 3 }),
    );
    expect(outcome.weeks).toBeCloseTo(15, 9);
    expect(outcome.restorationCash).toBe(100);
    expect(outcome.parts).toEqual([{ id: "lid", route: "make" }]);
  });

  test("a later hunt from its own turn", () => {
    // The repair has failed at 1, the hunt gives up 13 weeks later; nothing is left.
    const outcome = plainDraw(
      emptyDocument({
        parts: [
          part("lid", [
            route("repair", [operation("weld", { leadWeeks: 1 }), operation("dress", { leadWeeks: 9 })], {
              failure: { probability: 1, after: "weld" },
            }),
            hunted("used", [operation("buy", { cost: 50 })], 3),
          ]),
        ],
      }),
      scores({ "parts/lid/used|wait|1": 3 }),
    );
    expect(outcome.weeks).toBeCloseTo(14, 9);
    expect(outcome.complete).toBe(false);
    expect(outcome.parts).toEqual([{ id: "lid", route: undefined }]);
  });

  test("a second try's hunt as what is left of the patience", () => {
    // Found after ln 2 = .693147 months, delivered in 1 week, useless; given up 3 - .693147 months later: 13 + 1.
    const used = hunted("used", [operation("buy", { leadWeeks: 1 })], 3);
    used.purchase = { ...used.purchase, tries: 2, outcomes: [{ probability: 1, result: "useless" }] };
    expect(weeksOf({ parts: [part("lid", [used])] }, { "parts/lid/used|wait|2": 3 })).toBeCloseTo(14, 9);
  });

  test("findings before the hunt they precede", () => {
    // Strip-down 2, the finding 1: 3; found at 3.003638 in parallel. With 2 weeks of finding: 4, found already.
    const fields = (leadWeeks: number): Partial<EstimateDocument> => ({
      wholeMachine: { before: [ownWork("strip", 20)] },
      parts: [part("lid", [hunted("used", [operation("buy", { leadWeeks: 1 })])])],
      findings: [
        {
          id: "rust",
          name: "rust",
          trade: "general",
          probability: 0,
          state: "present",
          revealedAt: "blasting",
          leadWeeks,
          part: "lid",
        },
      ],
    });
    expect(weeksOf(fields(1))).toBeCloseTo(medianHuntWeeks + 1, 9);
    expect(weeksOf(fields(2))).toBeCloseTo(5, 9);
  });

  test("whole-machine visits on departures of their own", () => {
    // Strip 2, first visit 3: 5. The part's planned departure 3: 8. Assembly 1, second visit (two operations, one of
    // which takes another .5) 3.5: 12.5. Three departures.
    const outcome = plainDraw(
      emptyDocument({
        suppliers: [supplier("plater", 3, { batchCharge: 5 })],
        wholeMachine: {
          before: [ownWork("strip", 20), at("plater", "blast")],
          after: [ownWork("assemble", 10), at("plater", "base"), at("plater", "clear", { leadWeeks: 0.5 })],
        },
        parts: [part("a", [route("plate", [at("plater", "plate")])])],
      }),
      scores(),
    );
    expect(outcome.weeks).toBeCloseTo(12.5, 9);
    expect(outcome.suppliers).toEqual([{ id: "plater", cash: 15, departures: 3 }]);
  });

  test("the owner's hours first and the drying after, with the owner free", () => {
    // A: 1 week of hours and 2 of drying; B's 1 week of hours meanwhile. A has more to go: 1 + 2 = 3.
    const parts = [
      part("b", [route("own", [ownWork("clean", 10)])]),
      part("a", [route("own", [ownWork("paint", 10, { leadWeeks: 2 })])]),
    ];
    expect(weeksOf({ parts })).toBeCloseTo(3, 9);
  });

  test("a tie in document order, findings last", () => {
    // Each 1 week of the owner's; the part stands first, so its 2 weeks at the next shop run while he is at the
    // finding: 1 + 2. The other way round it would be 1 + 1 + 2. A shop's hours: 80 / 40.
    const parts = [part("a", [route("own", [ownWork("clean", 10)])])];
    const finding = {
      id: "stud",
      name: "stud",
      trade: "general" as const,
      probability: 1,
      revealedAt: "strip-down" as const,
      hours: 10,
      by: "owner" as const,
    };
    const later = part("b", [
      route("shop", [operation("grind", { hours: 80, by: "shop", after: ["a/own/clean"] })]),
    ]);
    const labour = { ownHourValue: 0, ownHoursPerWeek: 10, shopRates: { general: 30 } };
    expect(weeksOf({ labour, parts: [later, ...parts], findings: [finding] })).toBeCloseTo(3, 9);
  });

  test("an operation that follows another part's in its last try", () => {
    // Two tries of 1 week each, the first useless: B begins at 2 and takes 1.
    const used = route("used", [operation("buy", { leadWeeks: 1 })], {
      method: "used",
      purchase: {
        tries: 2,
        outcomes: [
          { probability: 0.5, result: "right" },
          { probability: 0.5, result: "useless" },
        ],
      },
    });
    const fit = operation("fit", { leadWeeks: 1, after: ["a/used/buy"] });
    const parts = [part("a", [used]), part("b", [route("fit", [fit])])];
    const given = { "parts/a/used|outcome|1": 1, "parts/a/used|outcome|2": -1 };
    expect(weeksOf({ parts }, given)).toBeCloseTo(3, 9);
    expect(weeksOf({ parts }, { "parts/a/used|outcome|1": -1 })).toBeCloseTo(2, 9);
  });
});
