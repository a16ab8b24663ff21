import fc from "fast-check";
import { describe, expect, test } from "vitest";
import type { EstimateDocument } from "../../src/domain/estimate-document.ts";
import type { Part, Route } from "../../src/domain/part.ts";
import { bands } from "../../src/domain/vocabulary.ts";
import { simulation } from "../../src/simulation/simulate.ts";
import { generatedDocument } from "./plain/generated-document.ts";
import { cases, documentSeeds } from "./properties.ts";

/** A route that works whatever the band is and cannot fail. */
const sure: Route = {
  id: "sure",
  method: "repair",
  worksFor: [...bands],
  operations: [
    {
      id: "dress",
      name: "Dress",
      trade: "bodywork",
      hours: { kind: "pert", low: 2, mode: 4, high: 9 },
      by: "owner",
    },
    { id: "fit", name: "Fit", trade: "parts", cost: { kind: "lognormal", p10: 40, p90: 90 } },
  ],
  failure: { probability: 0, after: "fit" },
};

/**
 * The document without lot names, whose order of first appearance decides which departure is forced, and without
 * precedence, which may name routes that are not there.
 */
function untied(document: EstimateDocument): EstimateDocument {
  const isReferences = (value: unknown) =>
    Array.isArray(value) && value.every((entry) => typeof entry === "string");
  const text = JSON.stringify(document, (key, value: unknown) =>
    key === "lot" || (key === "after" && isReferences(value)) ? undefined : value,
  );
  return JSON.parse(text) as EstimateDocument;
}

function withRoutes(document: EstimateDocument, part: Part, routes: Route[]): EstimateDocument {
  const ids = new Set(routes.map(({ id }) => id));
  const there = (list: string[]) => list.filter((id) => ids.has(id));
  return {
    ...document,
    parts: document.parts.map((each) => (each.id === part.id ? { ...each, routes } : each)),
    findings: document.findings.map((finding) =>
      finding.part !== part.id
        ? finding
        : {
            ...finding,
            ...(finding.onRoutes && { onRoutes: there(finding.onRoutes) }),
            ...(finding.rulesOut && { rulesOut: there(finding.rulesOut) }),
          },
    ),
  };
}

// Property, over made-up documents: the fallbacks are those the part had.
describe("a route that never fails", () => {
  test("makes its fallbacks irrelevant: every column is the same, bit for bit", () => {
    fc.assert(
      fc.property(documentSeeds, fc.nat(), (seed, pick) => {
        const document = untied(generatedDocument(seed, 3));
        const part = document.parts[pick % 3]!;
        const fallbacks = part.routes.map((route) => ({ ...route, state: "open" as const }));
        const alone = simulation(withRoutes(document, part, [sure]), { draws: 64 });
        const backed = simulation(withRoutes(document, part, [sure, ...fallbacks]), { draws: 64 });
        const columns = ({ outcomes, money }: typeof alone): [string, Float64Array][] => [
          ["all in", money.allIn],
          ["with own hours", money.withOwnHours],
          ["weeks", outcomes.weeks],
          ["to go", outcomes.toGo],
          ["finished", outcomes.finished],
          ...outcomes.lines.map((line, position): [string, Float64Array] => [`line ${position}`, line]),
          ...outcomes.supplierCash.map((cash, position): [string, Float64Array] => [
            `supplier ${position}`,
            cash,
          ]),
        ];
        const others = new Map(columns(backed));
        for (const [name, column] of columns(alone)) {
          const moved = column.findIndex((value, draw) => !Object.is(value, others.get(name)![draw]));
          expect(moved, `${name}: first draw that moved`).toBe(-1);
        }
      }),
      cases(80),
    );
  });
});
