import fc from "fast-check";
import { describe, expect, test } from "vitest";
import type { Finding } from "../../src/domain/estimate-document.ts";
import type { Part, Purchase, Route } from "../../src/domain/part.ts";
import { type Chance, possibilitiesOf } from "../../src/simulation/possible-routes.ts";
import { simulation } from "../../src/simulation/simulate.ts";
import { generatedDocument } from "./plain/generated-document.ts";
import { cases, documentSeeds } from "./properties.ts";
import { documentWith, partWith } from "./small-document.ts";

const route = (id: string, fields: Partial<Route> = {}): Route => ({
  id,
  method: "repair",
  operations: [{ id: "weld", name: "Weld", trade: "bodywork" }],
  ...fields,
});
const failing = (probability: number): Partial<Route> => ({ failure: { probability, after: "weld" } });
const bought = (purchase: Purchase): Partial<Route> => ({ method: "used", purchase });
const outcomes = (right: number, rework: number, useless: number): Partial<Route> =>
  bought({
    outcomes: [
      { probability: right, result: "right" },
      { probability: rework, result: "rework" },
      { probability: useless, result: "useless" },
    ],
  });
const second = route("second", { method: "fabricate" });

interface Row {
  what: string;
  routes: Route[];
  condition?: Part["condition"];
  finding?: Partial<Finding>;
  /** Chance of each route, then of being unresolved. */
  chances: Chance[];
}

const rows: Row[] = [
  { what: "no route", routes: [], chances: ["always"] },
  { what: "a sure route", routes: [route("first")], chances: ["always", "never"] },
  {
    what: "a sure route before another",
    routes: [route("first"), second],
    chances: ["always", "never", "never"],
  },
  {
    what: "a failed route before another",
    routes: [route("first", { state: "failed" }), second],
    chances: ["never", "always", "never"],
  },
  {
    what: "a fitted route after another",
    routes: [route("first"), route("other", { state: "fitted" })],
    chances: ["never", "always", "never"],
  },
  {
    what: "a failure that never happens",
    routes: [route("first", failing(0)), second],
    chances: ["always", "never", "never"],
  },
  {
    what: "one that may",
    routes: [route("first", failing(0.3)), second],
    chances: ["sometimes", "sometimes", "never"],
  },
  {
    what: "one that may, alone",
    routes: [route("first", failing(0.3))],
    chances: ["sometimes", "sometimes"],
  },
  {
    what: "one that always does",
    routes: [route("first", failing(1)), second],
    chances: ["never", "always", "never"],
  },
  {
    what: "a failure whose operation is done already",
    routes: [
      route("first", {
        ...failing(1),
        operations: [{ id: "weld", name: "Weld", trade: "bodywork", state: "done" }],
      }),
      second,
    ],
    chances: ["always", "never", "never"],
  },
  {
    what: "a band the route is not for",
    routes: [route("first")],
    condition: { band: "missing" },
    chances: ["never", "always"],
  },
  {
    what: "bands it is sometimes for",
    routes: [route("first"), second],
    condition: { odds: { poor: 0.9, missing: 0.1 } },
    chances: ["sometimes", "sometimes", "never"],
  },
  {
    what: "a band of no odds",
    routes: [route("first"), second],
    condition: { odds: { poor: 1, missing: 0 } },
    chances: ["always", "never", "never"],
  },
  {
    what: "a purchase that is always right",
    routes: [route("first", bought({ tries: 2 }))],
    chances: ["always", "never"],
  },
  {
    what: "right or reworked",
    routes: [route("first", outcomes(0.5, 0.5, 0))],
    chances: ["always", "never"],
  },
  {
    what: "perhaps useless",
    routes: [route("first", outcomes(0.9, 0, 0.1))],
    chances: ["sometimes", "sometimes"],
  },
  {
    what: "always useless",
    routes: [route("first", outcomes(0, 0, 1)), second],
    chances: ["never", "always", "never"],
  },
  {
    what: "hunted without end",
    routes: [route("first", bought({ findsPerMonth: 0.01 }))],
    chances: ["always", "never"],
  },
  {
    what: "hunted with patience",
    routes: [route("first", bought({ findsPerMonth: 9, patienceMonths: 60 })), second],
    chances: ["sometimes", "sometimes", "never"],
  },
  {
    what: "a finding that may rule it out",
    routes: [route("first"), second],
    finding: { probability: 0.5, rulesOut: ["first"] },
    chances: ["sometimes", "sometimes", "never"],
  },
  {
    what: "one that does",
    routes: [route("first"), second],
    finding: { probability: 0.5, state: "present", rulesOut: ["first"] },
    chances: ["never", "always", "never"],
  },
  {
    what: "one that is not there",
    routes: [route("first"), second],
    finding: { probability: 0.5, state: "absent", rulesOut: ["first"] },
    chances: ["always", "never", "never"],
  },
  {
    what: "one that rules out nothing",
    routes: [route("first"), second],
    finding: { probability: 0.5 },
    chances: ["always", "never", "never"],
  },
];

describe("possibilitiesOf()", () => {
  test.each(rows)("$what", ({ routes, condition, finding, chances }) => {
    const part = partWith("part", routes, condition && { condition });
    const found = finding && {
      id: "found",
      name: "Found",
      trade: "bodywork" as const,
      probability: 0.5,
      revealedAt: "blasting" as const,
      part: "part",
      ...finding,
    };
    const document = documentWith({ parts: [part], findings: found ? [found] : [] });
    const { routes: byRoute, unresolved } = possibilitiesOf(document, part);
    expect([...byRoute, unresolved]).toEqual(chances);
  });

  test("never and always hold in every draw (property, over made-up documents)", () => {
    fc.assert(
      fc.property(documentSeeds, (seed) => {
        const document = generatedDocument(seed, 5);
        const { program, outcomes } = simulation(document, { draws: 64, seed });
        const total = (counts: Int32Array, place: number) =>
          counts.reduce((sum, count, index) => sum + (index % (counts.length / 16) === place ? count : 0), 0);
        document.parts.forEach((part, position) => {
          const possible = possibilitiesOf(document, part);
          const seen = [
            ...part.routes.map((_, index) =>
              total(outcomes.routeDraws, program.parts[position]!.firstRoute + index),
            ),
            total(outcomes.unresolvedDraws, position),
          ];
          [...possible.routes, possible.unresolved].forEach((chance, index) => {
            if (chance === "never") expect(seen[index]).toBe(0);
            if (chance === "always") expect(seen[index]).toBe(64);
          });
        });
      }),
      cases(100),
    );
  });
});
