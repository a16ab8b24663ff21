import { describe, expect, test } from "vitest";
import type { Operation } from "../../../src/domain/operation.ts";
import type { Part } from "../../../src/domain/part.ts";
import { plainDraw } from "./plain-draw.ts";
import { emptyDocument, operation, ownWork, part, route, scores } from "./plain-fixture.ts";

const at = (id: string, fields: Partial<Operation> = {}) => operation(id, { supplier: "plater", ...fields });

/** A plater who charges 1 a departure, so that the supplier's cash counts them; 2 weeks. */
const drawOf = (parts: Part[], given: Record<string, number> = {}) => {
  const suppliers = [
    { id: "plater", name: "plater", trade: "plating" as const, batchCharge: 1, leadWeeks: 2 },
  ];
  const outcome = plainDraw(emptyDocument({ suppliers, parts }), scores(given));
  return { departures: outcome.suppliers[0]!.departures, weeks: outcome.weeks, cash: outcome.toGo };
};

// Worked by hand; the arithmetic stands with each.
describe("plainDraw() groups visits", () => {
  const twice = part("b", [route("r", [at("strip"), ownWork("weld", 0), at("plate")])]);

  test("of a later route into the late series, not a planned departure of another part", () => {
    // A fails at the plater and goes again: late 1. B has planned 1 (with A) and planned 2: 3 departures, 4 weeks.
    const again = part("a", [
      route("one", [at("strip")], { failure: { probability: 1, after: "strip" } }),
      route("two", [at("plate")]),
    ]);
    expect(drawOf([again, twice])).toEqual({ departures: 3, weeks: 4, cash: 3 });
  });

  test("of a second try without a hunt into the planned series", () => {
    // A's tries are planned 1 and 2, as are B's visits: 2 departures.
    const outcomes = [
      { probability: 0.5, result: "right" as const },
      { probability: 0.5, result: "useless" as const },
    ];
    const bought = part("a", [route("r", [at("buy")], { purchase: { tries: 2, outcomes } })]);
    expect(drawOf([bought, twice], { "parts/a/r|outcome|1": 1 })).toEqual({
      departures: 2,
      weeks: 4,
      cash: 2,
    });
  });

  test("of a rework and the rest that follow at one supplier into one, lots apart", () => {
    // Judged, reworked and finished in one visit; another lot is another departure.
    const outcomes = [{ probability: 1, result: "rework" as const, operations: [at("again")] }];
    const bought = (rest: Operation) =>
      part("a", [route("r", [at("try"), rest], { purchase: { judgedAfter: "try", outcomes } })]);
    expect(drawOf([bought(at("plate"))])).toEqual({ departures: 1, weeks: 2, cash: 1 });
    expect(drawOf([bought(at("plate", { lot: "zinc" }))])).toEqual({ departures: 2, weeks: 4, cash: 2 });
  });

  test("over what is done already", () => {
    const done = ownWork("weld", 30, { state: "done" });
    expect(drawOf([part("a", [route("r", [at("strip"), done, at("plate")])])])).toEqual({
      departures: 1,
      weeks: 2,
      cash: 1,
    });
  });

  test("with all that must come before any operation of the visit", () => {
    // B's own week comes before A's second operation there: the visit is ready at 1, back at 3.
    const first = part("b", [route("r", [ownWork("clean", 10)])]);
    const second = part("a", [route("r", [at("strip"), at("plate", { after: ["b/r/clean"] })])]);
    expect(drawOf([second, first])).toEqual({ departures: 1, weeks: 3, cash: 1 });
  });

  test("that leave by themselves as soon as they are ready once their departure was made to", () => {
    // Plater (2 weeks) and smith wait for each other; the plater is made to leave at 0 with A, back 2; the smith 2 to 5.
    // C follows A's plating for 10 weeks, 2 to 12; B goes to the plater at 5, back 7, and takes another 6: 13.
    const smith = operation("weld", { supplier: "smith" });
    const outcome = plainDraw(
      emptyDocument({
        suppliers: [
          { id: "plater", name: "plater", trade: "plating", leadWeeks: 2 },
          { id: "smith", name: "smith", trade: "bodywork", leadWeeks: 3 },
        ],
        parts: [
          part("a", [route("r", [at("plate"), smith])]),
          part("b", [route("r", [smith, at("plate"), operation("cure", { leadWeeks: 6 })])]),
          part("c", [route("r", [operation("wait", { leadWeeks: 10, after: ["a/r/plate"] })])]),
        ],
      }),
      scores(),
    );
    expect(outcome.weeks).toBeCloseTo(13, 9);
  });

  test("and lets an operation follow one of its own visit or of its own earlier try", () => {
    // Two tries of one visit of 2 weeks each.
    const outcomes = [
      { probability: 0.5, result: "right" as const },
      { probability: 0.5, result: "useless" as const },
    ];
    const bought = route("r", [at("buy"), at("fit", { after: ["buy"] })], {
      purchase: { tries: 2, outcomes },
    });
    expect(drawOf([part("a", [bought])], { "parts/a/r|outcome|1": 1 }).weeks).toBeCloseTo(4, 9);
  });

  test("and counts a visit's weeks into what the owner has to go", () => {
    // B has 1 + 2 + 2 (two operations, one visit) = 5 to go and goes first though A stands first with 1 + 2.5: B at
    // the plater 1 to 3, then 2 more to 5 while the owner is at A, 1 to 4.5. A first would take 3.5 + 1 + 2 + 2.
    const first = part("a", [route("r", [ownWork("clean", 10), ownWork("polish", 25)])]);
    const slow = operation("cure", { leadWeeks: 2 });
    const second = part("b", [route("r", [ownWork("clean", 10), at("strip"), at("plate"), slow])]);
    expect(drawOf([first, second]).weeks).toBeCloseTo(5, 9);
  });

  test("and adds the weeks each operation takes for its own part", () => {
    // A is back at 2 and takes 1 + .5 more; B is back at 2.
    const slow = part("a", [route("r", [at("strip", { leadWeeks: 1 }), at("plate", { leadWeeks: 0.5 })])]);
    const quick = part("b", [route("r", [at("plate")])]);
    expect(drawOf([slow, quick])).toEqual({ departures: 1, weeks: 3.5, cash: 1 });
  });
});
