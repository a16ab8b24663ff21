import type { EstimateDocument, Finding, Overhead, Supplier } from "../../src/domain/estimate-document.ts";
import type { Operation } from "../../src/domain/operation.ts";
import type { Part, Route } from "../../src/domain/part.ts";
import type { Uncertain } from "../../src/domain/uncertain.ts";

/** A quantity so many times as large in every draw. */
function scaled(uncertain: Uncertain, factor: number): Uncertain {
  if (typeof uncertain === "number") return uncertain * factor;
  switch (uncertain.kind) {
    case "log-student":
      return { ...uncertain, location: uncertain.location + Math.log(factor) };
    case "sample":
      return { ...uncertain, values: uncertain.values.map((value) => value * factor) };
    case "discrete":
      return {
        ...uncertain,
        outcomes: uncertain.outcomes.map(({ value, probability }) => ({
          value: value * factor,
          probability,
        })),
      };
    default: {
      const unitless = new Set(["kind", "covers", "weight"]);
      const entries = Object.entries(uncertain).map(([name, parameter]) =>
        unitless.has(name) ? [name, parameter] : [name, (parameter as number) * factor],
      );
      return Object.fromEntries(entries) as Uncertain;
    }
  }
}

/** The fields named, where present, so many times as large. */
function scaledFields<T extends object>(from: T, factor: number, ...names: (keyof T)[]): T {
  const to = { ...from };
  for (const name of names) {
    const amount = from[name];
    if (amount !== undefined) to[name] = scaled(amount as Uncertain, factor) as T[typeof name];
  }
  return to;
}

/** The same document in a currency of which `factor` units make one of its own: money alone is changed. */
export function moneyScaled(document: EstimateDocument, factor: number): EstimateDocument {
  const operations = (list: Operation[]) => list.map((each) => scaledFields(each, factor, "cost"));
  const overheads = (list: Overhead[]) => list.map((each) => scaledFields(each, factor, "cost"));
  const route = (each: Route): Route => ({
    ...scaledFields(each, factor, "valueEffect"),
    operations: operations(each.operations),
    ...(each.purchase && {
      purchase: {
        ...each.purchase,
        ...(each.purchase.outcomes && {
          outcomes: each.purchase.outcomes.map((outcome) => ({
            ...outcome,
            ...(outcome.operations && { operations: operations(outcome.operations) }),
          })),
        }),
      },
    }),
  });
  const part = (each: Part): Part => ({
    ...each,
    routes: each.routes.map(route),
    ...(each.ifUnresolved && { ifUnresolved: scaledFields(each.ifUnresolved, factor, "valueEffect") }),
  });
  const supplier = (each: Supplier) =>
    scaledFields(each, factor, "minimumCharge", "batchCharge", "freightPerBatch");
  const finding = (each: Finding) => scaledFields(each, factor, "cost");
  const { labour, shop, wholeMachine, acquisition, budget, value, spent, carrying } = document;
  return {
    ...scaledFields(document, factor, "acceptableNetCost", "cashPerMonth"),
    labour: {
      ...scaledFields(labour, factor, "ownHourValue"),
      shopRates: scaledFields(labour.shopRates, factor, ...(Object.keys(labour.shopRates) as "plating"[])),
    },
    suppliers: document.suppliers.map(supplier),
    parts: document.parts.map(part),
    findings: document.findings.map(finding),
    overheads: overheads(document.overheads),
    ...(shop && { shop: scaledFields(shop, factor, "costRate", "chargeRate") }),
    ...(wholeMachine && {
      wholeMachine: {
        ...(wholeMachine.before && { before: operations(wholeMachine.before) }),
        ...(wholeMachine.after && { after: operations(wholeMachine.after) }),
      },
    }),
    ...(acquisition && {
      acquisition: {
        price: acquisition.price * factor,
        ...(acquisition.extras && { extras: overheads(acquisition.extras) }),
      },
    }),
    ...(budget && { budget: scaledFields(budget, factor, "amount") }),
    ...(value && {
      value: {
        ...scaledFields(value, factor, "finished", "asIs", "inPieces", "parted", "boughtFinished"),
        selling: scaledFields(value.selling, factor, "fixed"),
      },
    }),
    ...(spent && { spent: scaledFields(spent, factor, "cash", "firmOrders") }),
    ...(carrying && { carrying: scaledFields(carrying, factor, "perMonth") }),
  };
}
