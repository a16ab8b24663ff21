import { describe, expect, test } from "vitest";
import type { EstimateDocument } from "../../../src/domain/estimate-document.ts";
import type { Uncertain } from "../../../src/domain/uncertain.ts";
import { plainDraw } from "./plain-draw.ts";
import { emptyDocument, operation, ownWork, part, route, scores } from "./plain-fixture.ts";

/** Its value is 100 + 10 z. */
const bell: Uncertain = { kind: "normal", mean: 100, sd: 10 };

const driversOf = (...ids: string[]) => ids.map((id) => ({ id, name: id }));

const one = (fields: Parameters<typeof operation>[1]): Partial<EstimateDocument> => ({
  drivers: driversOf("plating", "pace", "storage"),
  parts: [part("p", [route("r", [operation("o", { trade: "plating", ...fields })])])],
});

const draw = (fields: Partial<EstimateDocument>, given: Record<string, number>) =>
  plainDraw(emptyDocument(fields), scores(given));

// Worked by hand: with loading .55 the rest is sqrt(1 - .3025) = .835165; 100 + 10 (.55 x 2 + .835165 x 1) = 119.35165.
describe("plainDraw() mixes", () => {
  const rest = Math.sqrt(1 - 0.55 * 0.55);

  test("an operation's cost with its trade's driver and its hours with the pace", () => {
    const costly = draw(one({ cost: bell }), { "drivers/plating|level": 2, "parts/p/r/o|cost": 1 });
    expect(costly.toGo).toBeCloseTo(100 + 10 * (1.1 + rest), 9);
    const long = draw(one({ hours: bell, by: "owner" }), { "drivers/pace|level": 2, "parts/p/r/o|hours": 1 });
    expect(long.ownHours).toBeCloseTo(100 + 10 * (1.1 + rest), 9);
  });

  test("an operation's weeks with its trade's driver", () => {
    const late = draw(one({ leadWeeks: bell }), { "drivers/plating|level": -2, "parts/p/r/o|lead": 1 });
    expect(late.weeks).toBeCloseTo(100 + 10 * (rest - 1.1), 9);
  });

  test("nothing where the loadings are empty or the driver isn't declared", () => {
    const given = { "drivers/plating|level": 2, "parts/p/r/o|cost": 1 };
    expect(draw(one({ cost: bell, drivers: {} }), given).toGo).toBeCloseTo(110, 9);
    expect(draw({ ...one({ cost: bell }), drivers: driversOf("paint") }, given).toGo).toBeCloseTo(110, 9);
  });

  test("loadings of its own in place of the default", () => {
    const given = { "drivers/storage|level": 2, "drivers/plating|level": 9, "parts/p/r/o|cost": 1 };
    expect(draw(one({ cost: bell, drivers: { storage: -0.6 } }), given).toGo).toBeCloseTo(100 - 12 + 8, 9);
  });

  test("a supplier's charge, freight and weeks with its trade's driver, each departure its own", () => {
    // Two departures: charges 100 + 10 (1.1 + .835165) and 100 + 11, freight twice 100 + 11, weeks twice 100 + 11.
    const at = (id: string) => operation(id, { supplier: "plater" });
    const outcome = draw(
      {
        drivers: driversOf("plating"),
        suppliers: [
          {
            id: "plater",
            name: "plater",
            trade: "plating",
            batchCharge: bell,
            freightPerBatch: bell,
            leadWeeks: bell,
          },
        ],
        parts: [part("p", [route("r", [at("strip"), ownWork("weld", 0), at("plate")])])],
      },
      { "drivers/plating|level": 2, "suppliers/plater//planned/1|charge": 1 },
    );
    expect(outcome.toGo).toBeCloseTo(4 * 111 + 10 * rest, 9);
    expect(outcome.weeks).toBeCloseTo(222, 9);
  });

  test("a finding's event with how it was kept, and a failure with nothing", () => {
    // Event .3 happens above .5244: .6 x 1 + .8 x 0 = .6 does, .6 x .8 = .48 does not.
    const fields: Partial<EstimateDocument> = {
      drivers: driversOf("storage"),
      findings: [
        { id: "rust", name: "rust", trade: "general", probability: 0.3, revealedAt: "blasting", cost: 7 },
      ],
      parts: [
        part("p", [
          route("r", [operation("o", { cost: 1 })], { failure: { probability: 0.3, after: "o" } }),
          route("s", [operation("o", { cost: 100 })]),
        ]),
      ],
    };
    expect(draw(fields, { "drivers/storage|level": 1 }).toGo).toBe(8);
    expect(draw(fields, { "drivers/storage|level": 0.8 }).toGo).toBe(1);
    expect(draw(fields, { "parts/p/r|failure": 0.53 }).toGo).toBe(101);
    expect(draw(fields, { "parts/p/r|failure": 0.52 }).toGo).toBe(1);
  });

  test("costs below 0 counted as 0, effects on the value not", () => {
    const value = { finished: bell, selling: { commission: 0 } };
    const outcome = draw(
      { ...one({ cost: bell }), value },
      { "parts/p/r/o|cost": -20, "value|finished": -20 },
    );
    expect([outcome.toGo, outcome.finished]).toEqual([0, -100]);
  });

  test("each try of a purchase with streams of its own", () => {
    // Try 1 costs 110 and is useless, try 2 costs 80 and is right.
    const bought = route("r", [operation("o", { cost: bell })], {
      purchase: {
        tries: 2,
        outcomes: [
          { probability: 0.5, result: "right" },
          { probability: 0.5, result: "useless" },
        ],
      },
    });
    const given = { "parts/p/r/o|cost|1": 1, "parts/p/r/o|cost|2": -2, "parts/p/r|outcome|1": 1 };
    expect(draw({ parts: [part("p", [bought])] }, given).toGo).toBeCloseTo(190, 9);
  });
});
