import fc from "fast-check";
import { describe, expect, test } from "vitest";
import type { EstimateDocument } from "../../src/domain/estimate-document.ts";
import type { Operation } from "../../src/domain/operation.ts";
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
 * The document with every operation changed: no lot names, whose order of first appearance decides which departure is
 * forced, and no word of the routes that may not be there.
 */
function untied(document: EstimateDocument, partId: string): EstimateDocument {
  const untie = ({ lot: _lot, after, ...rest }: Operation): Operation => ({
    ...rest,
    ...(after && { after: after.filter((path) => !path.startsWith(`${partId}/`)) }),
  });
  const route = (each: Route): Route => ({
    ...each,
    operations: each.operations.map(untie),
    ...(each.purchase?.outcomes && {
      purchase: {
        ...each.purchase,
        outcomes: each.purchase.outcomes.map((outcome) => ({
          ...outcome,
          ...(outcome.operations && { operations: outcome.operations.map(untie) }),
        })),
      },
    }),
  });
  const { before = [], after = [] } = document.wholeMachine ?? {};
  return {
    ...document,
    parts: document.parts.map((part) => ({ ...part, routes: part.routes.map(route) })),
    wholeMachine: { before: before.map(untie), after: after.map(untie) },
  };
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
        const drawn = generatedDocument(seed, 3);
        const { id } = drawn.parts[pick % 3]!;
        const document = untied(drawn, id);
        const part = document.parts.find((each) => each.id === id)!;
        const fallbacks = part.routes.map(({ state: _state, ...route }) => route);
        const alone = simulation(withRoutes(document, part, [sure]), { draws: 64 });
        const backed = simulation(withRoutes(document, part, [sure, ...fallbacks]), { draws: 64 });
        const columns = ({ outcomes, money }: typeof alone) => [
          money.allIn,
          money.withOwnHours,
          outcomes.weeks,
          outcomes.toGo,
          outcomes.finished,
          ...outcomes.lines,
          ...outcomes.supplierCash,
        ];
        const others = columns(backed);
        columns(alone).forEach((column, which) => {
          expect(column.findIndex((value, draw) => !Object.is(value, others[which]![draw]))).toBe(-1);
        });
      }),
      cases(80),
    );
  });
});
