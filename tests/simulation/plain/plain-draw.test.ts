import { describe, expect, test } from "vitest";
import type { EstimateDocument } from "../../../src/domain/estimate-document.ts";
import type { Part } from "../../../src/domain/part.ts";
import { plainDraw } from "./plain-draw.ts";
import {
  emptyDocument,
  exhaust,
  finding,
  lid,
  operation,
  ownWork,
  part,
  quantile,
  route,
  scores,
} from "./plain-fixture.ts";
import { plainTypicals } from "./plain-typicals.ts";

/** The mean over some equally walked cases, each with its probability. */
function expectedCash(
  document: EstimateDocument,
  cases: { probability: number; given: Record<string, number> }[],
) {
  return cases.reduce(
    (sum, { probability, given }) => sum + probability * plainDraw(document, scores(given)).restorationCash,
    0,
  );
}

// Worked by hand from the rules of one draw; the arithmetic stands with each.
describe("plainDraw() counts", () => {
  test("a replated exhaust that fails after the strip", () => {
    // .7 (45 + 165) + .3 (45 + 190 + 35 + .25 x 60) = 147 + 85.5 = 232.5. Phi(1) = .841 > .7 fails; Phi(1) > .75 too.
    const failure = "parts/exhaust/replate|failure";
    const expected = expectedCash(emptyDocument({ parts: [exhaust] }), [
      { probability: 0.7, given: { [failure]: 0 } },
      { probability: 0.3 * 0.75, given: { [failure]: 1 } },
      { probability: 0.3 * 0.25, given: { [failure]: 1, "parts/exhaust/copy|outcome|1": 1 } },
    ]);
    expect(expected).toBeCloseTo(232.5, 9);
  });

  test("a new-old-stock lid that may be wrong or useless", () => {
    // 187 + .3 x 150 + .15 (310 - 165 / 2) = 187 + 45 + 34.125 = 266.125. Cuts at .55 and .85: Phi(0), Phi(.5), Phi(2).
    const outcome = "parts/lid/old-stock|outcome|1";
    const expected = expectedCash(emptyDocument({ parts: [lid] }), [
      { probability: 0.55, given: { [outcome]: 0 } },
      { probability: 0.3, given: { [outcome]: 0.5 } },
      { probability: 0.15, given: { [outcome]: 2 } },
    ]);
    expect(expected).toBeCloseTo(266.125, 9);
  });

  const taxed: Partial<EstimateDocument> = {
    taxPercent: 20,
    acquisition: {
      price: 1000,
      extras: [
        { id: "premium", name: "premium", shareOfPrice: 0.05 },
        { id: "collection", name: "collection", cost: 30 },
      ],
    },
    labour: { ownHourValue: 10, ownHoursPerWeek: 10, shopRates: { plating: 30 } },
    suppliers: [
      {
        id: "plater",
        name: "plater",
        trade: "plating",
        minimumCharge: 100,
        batchCharge: 20,
        freightPerBatch: 5,
        taxPercent: 10,
      },
    ],
    parts: [
      part("a", [
        route("plate", [
          operation("plate", { trade: "plating", cost: 60, hours: 1, by: "shop", supplier: "plater" }),
        ]),
      ]),
    ],
    findings: [finding("stud", { cost: 40, hours: 2, by: "owner" })],
    overheads: [
      { id: "consumables", name: "consumables", cost: 50 },
      { id: "duty", name: "duty", shareOfPrice: 0.1 },
      { id: "not-listed", name: "not listed", shareOfListed: 0.2 },
    ],
    spent: { cash: 300, firmOrders: 7, ownHours: 3 },
  };

  test("the minimum before tax, each tax in its place and the shares", () => {
    // Part 90 x 1.1 = 99; departure (10 + 20 + 5) x 1.1 = 38.5; finding 40 x 1.2 = 48; listed 185.5. Overheads 60, 100,
    // 37.1. To go 382.6; all 689.6; own hours 3 + 2 at 10; all in 1000 + 50 + 30 + 689.6, no tax on the 30.
    const outcome = plainDraw(emptyDocument(taxed), scores());
    expect(outcome.lines.map(({ cash }) => Number(cash.toFixed(9)))).toEqual([99, 38.5, 48, 60, 100, 37.1]);
    expect(outcome.toGo).toBeCloseTo(382.6, 9);
    expect(outcome.restorationCash).toBeCloseTo(689.6, 9);
    expect(outcome.withOwnHours).toBeCloseTo(739.6, 9);
    expect(outcome.allIn).toBeCloseTo(1769.6, 9);
    expect(outcome.suppliers[0]?.cash).toBeCloseTo(137.5, 9);
    expect(outcome.shareOfPrice).toBeCloseTo(0.15, 12);
    expect([outcome.ownHours, outcome.shopHours]).toEqual([5, 1]);
  });

  test("no tax that is reclaimed", () => {
    // 90 + 35 + 40 = 165; 50, 100, 33: 348.
    expect(plainDraw(emptyDocument({ ...taxed, reclaimsTax: true }), scores()).toGo).toBeCloseTo(348, 9);
  });

  test("what comes back with its tax, bench hours not among it", () => {
    // Bought (100 + 1 h x 30) x 1.2 = 156 and 2 bench hours x 25 = 50; half of 156 comes back: 206 - 78 = 128.
    const buy = operation("buy", { trade: "parts", cost: 100, hours: 1, by: "shop" });
    const verify = operation("verify", { trade: "parts", hours: 2, by: "owner" });
    const used = route("used", [buy, verify], {
      purchase: { outcomes: [{ probability: 1, result: "useless", recovers: 0.5 }] },
    });
    const outcome = plainDraw(
      emptyDocument({
        taxPercent: 20,
        labour: { ownHourValue: 99, ownHoursPerWeek: 40, shopRates: { parts: 30 } },
        shop: { costRate: 25, chargeRate: 60, partsMarkUpPercent: 10 },
        spent: { cash: 0, ownHours: 4 },
        parts: [part("lid", [used])],
      }),
      scores(),
    );
    expect(outcome.lines).toEqual([{ id: "lid", kind: "part", cash: 128 }]);
    expect([outcome.withOwnHours, outcome.ownHours]).toEqual([128, 6]);
  });

  test("quantities each or once for the job", () => {
    // 3 x 10 + 5, 3 x 2 hours.
    const spokes = part("spokes", [
      route("buy", [
        operation("buy", { cost: 10 }),
        ownWork("fit", 2),
        operation("post", { cost: 5, per: "job" }),
      ]),
    ]);
    const outcome = plainDraw(emptyDocument({ parts: [{ ...spokes, quantity: 3 }] }), scores());
    expect([outcome.restorationCash, outcome.ownHours]).toEqual([35, 6]);
  });

  test("done operations as the first try's, which has no wait", () => {
    // Bought already: try 1 pays the freight, 22; useless. Try 2 hunts for 3.003638 weeks and pays 165 + 22.
    const [oldStock] = lid.routes;
    const [buy, freight] = oldStock!.operations;
    const again = {
      ...oldStock!,
      operations: [{ ...buy!, state: "done" as const }, freight!],
      purchase: { ...oldStock!.purchase, findsPerMonth: 1, tries: 2 },
    };
    const outcome = plainDraw(
      emptyDocument({ parts: [{ ...lid, routes: [again] }] }),
      scores({ "parts/lid/old-stock|outcome|1": 2 }),
    );
    expect(outcome.restorationCash).toBe(22 + 187);
    expect(outcome.weeks).toBeCloseTo((Math.LN2 * 52) / 12, 9);
  });

  test("a failure no longer once its operation is done", () => {
    const [replate] = exhaust.routes;
    const [strip, plate] = replate!.operations;
    const begun = { ...replate!, operations: [{ ...strip!, state: "done" as const }, plate!] };
    const document = emptyDocument({ parts: [{ ...exhaust, routes: [begun] }] });
    expect(plainDraw(document, scores({ "parts/exhaust/replate|failure": 3 })).restorationCash).toBe(165);
  });

  test("a finding once, before the first route it must be paid on, and not on a fitted one", () => {
    // B rules route 1 out, the only one it is paid on; route 2 fails for 5; A is paid before route 3: 5 + 8 + 20.
    const routes = [
      route("one", [operation("o", { cost: 1 })]),
      route("two", [operation("o", { cost: 5 })], { failure: { probability: 1, after: "o" } }),
      route("three", [operation("o", { cost: 20 })]),
    ];
    const findings = [
      finding("a", { part: "p", onRoutes: ["three"], cost: 8 }),
      finding("b", { part: "p", onRoutes: ["one"], rulesOut: ["one"], cost: 100 }),
    ];
    const draw = (given: Part, some = findings) =>
      plainDraw(emptyDocument({ parts: [given], findings: some }), scores());
    // On every route, it is paid before route 1, which fails as route 2 does: 4 + 1 + 5 + 20.
    const failing = routes.map((each) => ({ ...each, failure: { probability: 1, after: "o" } }));
    expect(draw(part("p", failing), [finding("a", { part: "p", cost: 4 })]).restorationCash).toBe(30);
    expect(draw(part("p", routes)).restorationCash).toBe(33);
    const fitted = draw(
      part("p", [...routes, route("four", [operation("o", { cost: 9 })], { state: "fitted" })]),
    );
    expect(fitted.restorationCash).toBe(0);
    expect(fitted.parts).toEqual([{ id: "p", route: "four" }]);
  });

  test("odds over bands on the storage driver, methods by band and the value effects", () => {
    // z = .6 x 2 + .8 x own: own 0 gives 1.2, Phi = .885: past .8 it is missing, so only the copy works.
    const routes = [
      route("keep", [operation("clean", { cost: 1 })], { method: "reuse", valueEffect: 50 }),
      route("copy", [operation("buy", { cost: 70 })], { valueEffect: -200, worksFor: ["missing"] }),
    ];
    const seat = part("seat", routes, { condition: { odds: { tired: 0.5, poor: 0.3, missing: 0.2 } } });
    const lost = part("lost", [], { ifUnresolved: { valueEffect: -30 } });
    const document = emptyDocument({
      drivers: [{ id: "storage", name: "how it was kept" }],
      parts: [seat, lost],
      acquisition: { price: 100 },
      carrying: { perMonth: 12 },
      value: { finished: 1000, selling: { commission: 0.1, fixed: 20, months: 3 } },
    });
    const outcome = plainDraw(document, scores({ "drivers/storage|level": 2 }));
    expect(outcome.parts.map(({ route }) => route)).toEqual(["copy", undefined]);
    // 1000 - 200 - 30 = 770; 770 x .9 - 20 = 673; carrying 12 x 3 = 36; 673 - 100 - 70 - 36 = 467.
    expect([outcome.finished, outcome.proceeds, outcome.carrying, outcome.gap]).toEqual([770, 673, 36, 467]);
    expect(plainDraw(document, scores()).parts[0]?.route).toBe("keep");
  });

  test("the sum of typicals: the likeliest band, nothing failing, first tries right, what is present", () => {
    // 300 + 7 spent, and to go 382.6 as above; exhaust 210, lid 187, each x 1.2, and in the share of .2: x 1.2 again.
    const parts = [...taxed.parts!, exhaust, lid];
    const findings = [...taxed.findings!, finding("open", { state: "open", probability: 0.9, cost: 500 })];
    expect(plainTypicals(emptyDocument({ ...taxed, parts, findings }), quantile)).toBeCloseTo(
      689.6 + (210 + 187) * 1.2 * 1.2,
      9,
    );
  });
});
