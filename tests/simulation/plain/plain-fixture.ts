import type { EstimateDocument, Finding } from "../../../src/domain/estimate-document.ts";
import type { Operation } from "../../../src/domain/operation.ts";
import type { Part, Route } from "../../../src/domain/part.ts";
import type { Uncertain } from "../../../src/domain/uncertain.ts";
import { lowerTail, upperTail } from "./plain-normal.ts";
import type { Source } from "./plain-types.ts";

/** A document with nothing in it but ten hours a week, to spread over. */
export function emptyDocument(fields: Partial<EstimateDocument> = {}): EstimateDocument {
  return {
    format: "restoration-estimate/1",
    title: "Worked by hand",
    currency: "USD",
    pricesAsOf: "2026-06",
    vehicle: { kind: "motorcycle", make: "Merrowdale", model: "Tarn", year: 1961 },
    labour: { ownHourValue: 0, ownHoursPerWeek: 10, shopRates: {} },
    drivers: [],
    suppliers: [],
    parts: [],
    findings: [],
    overheads: [],
    ...fields,
  };
}

/** An operation of general trade. */
export function operation(id: string, fields: Partial<Operation> = {}): Operation {
  return { id, name: id, trade: "general", ...fields };
}

/** An operation the owner does. */
export function ownWork(id: string, hours: Uncertain, fields: Partial<Operation> = {}): Operation {
  return operation(id, { hours, by: "owner", ...fields });
}

/** A route that works for every band. */
export function route(id: string, operations: Operation[], fields: Partial<Route> = {}): Route {
  return { id, method: "fabricate", operations, ...fields };
}

/** A tired part. */
export function part(id: string, routes: Route[], fields: Partial<Part> = {}): Part {
  return { id, name: id, class: "bracket", condition: { band: "tired" }, routes, ...fields };
}

/** A finding that is there and says nothing else. */
export const finding = (id: string, fields: Partial<Finding>): Finding => ({
  id,
  name: id,
  trade: "general",
  probability: 0,
  state: "present",
  revealedAt: "blasting",
  ...fields,
});

/** An exhaust whose replating may open rust; else a copy that may need fettling. */
export const exhaust: Part = part("exhaust", [
  route("replate", [operation("strip", { cost: 45 }), operation("plate", { cost: 165 })], {
    method: "replate",
    failure: { probability: 0.3, after: "strip" },
  }),
  route("copy", [operation("buy", { cost: 190, trade: "parts" }), operation("freight", { cost: 35 })], {
    method: "reproduction",
    purchase: {
      outcomes: [
        { probability: 0.75, result: "right" },
        { probability: 0.25, result: "rework", operations: [operation("fettle", { cost: 60 })] },
      ],
    },
  }),
]);

/** A lid bought new-old-stock that may be the wrong colour or no use; else a used one. */
export const lid: Part = part("lid", [
  route("old-stock", [operation("buy", { cost: 165, trade: "parts" }), operation("freight", { cost: 22 })], {
    method: "new-old-stock",
    purchase: {
      outcomes: [
        { probability: 0.55, result: "right" },
        { probability: 0.3, result: "rework", operations: [operation("repaint", { cost: 150 })] },
        { probability: 0.15, result: "useless", recovers: 0.5 },
      ],
    },
  }),
  route("used", [operation("buy", { cost: 310, trade: "parts" })], { method: "used" }),
]);

/** A source whose streams score what is given, 0 where nothing is. */
export function scores(given: Record<string, number> = {}): Source {
  return { score: (key) => given[key] ?? 0, quantile };
}

/** Quantiles of the distributions the hand-worked cases use. */
export function quantile(uncertain: Uncertain, z: number): number {
  if (typeof uncertain === "number") return uncertain;
  switch (uncertain.kind) {
    case "uniform":
      return uncertain.low + (uncertain.high - uncertain.low) * lowerTail(z);
    case "normal":
      return uncertain.mean + uncertain.sd * z;
    case "exponential":
      return -uncertain.mean * Math.log(upperTail(z));
    case "discrete": {
      let sum = 0;
      for (const { value, probability } of uncertain.outcomes) {
        sum += probability;
        if (lowerTail(z) <= sum) return value;
      }
      return uncertain.outcomes.at(-1)!.value;
    }
    default:
      throw new Error(`no quantile worked by hand for ${uncertain.kind}`);
  }
}
