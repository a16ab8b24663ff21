import type { EstimateDocument, Finding, Overhead, Supplier } from "../../../src/domain/estimate-document.ts";
import type { Part } from "../../../src/domain/part.ts";
import { trades } from "../../../src/domain/vocabulary.ts";
import { diceOf } from "./generated-dice.ts";
import { addPrecedence } from "./generated-order.ts";
import { someLoadings, someOperation, somePart } from "./generated-part.ts";
import type { Making } from "./generated-part.ts";
import { amountAbout, effectAbout, positiveAbout } from "./generated-uncertain.ts";

const driverIds = ["storage", "pace", "plating", "paint", "parts", "general", "freight", "weather"];

function someSuppliers(making: Making, count: number): Supplier[] {
  const { dice, style } = making;
  return ["plater", "painter", "smith"].slice(0, count).map((id) => ({
    id,
    name: id,
    trade: dice.pick(["plating", "paint", "bodywork"] as const),
    ...(dice.chance(0.6) ? { minimumCharge: dice.pick([100, 200, 450]) } : {}),
    ...(dice.chance(0.5) ? { batchCharge: amountAbout(dice, style, 80) } : {}),
    ...(dice.chance(0.5) ? { freightPerBatch: amountAbout(dice, style, 40) } : {}),
    ...(dice.chance(0.9) ? { leadWeeks: amountAbout(dice, style, 6) } : {}),
    ...(dice.chance(0.4) ? { taxPercent: dice.pick([0, 5, 17.5]) } : {}),
    ...someLoadings(making),
  }));
}

function someFinding(making: Making, id: string, parts: Part[]): Finding {
  const { dice, style } = making;
  const part = parts.length > 0 && dice.chance(0.75) ? dice.pick(parts) : undefined;
  const routeIds = part?.routes.map((route) => route.id) ?? [];
  const withHours = dice.chance(0.5);
  return {
    id,
    name: id,
    trade: dice.pick(trades),
    probability: dice.pick([0, 0.2, 0.5, 0.8, 1]),
    revealedAt: dice.pick(["viewing", "strip-down", "blasting", "machining"] as const),
    ...(dice.chance(0.5) ? { state: dice.pick(["open", "present", "absent"] as const) } : {}),
    ...(dice.chance(0.7) ? { cost: amountAbout(dice, style, 150) } : {}),
    ...(withHours ? { hours: amountAbout(dice, style, 20), by: dice.pick(["owner", "shop"] as const) } : {}),
    ...(dice.chance(0.4) ? { leadWeeks: amountAbout(dice, style, 2) } : {}),
    ...(part ? { part: part.id } : {}),
    ...(routeIds.length > 0 && dice.chance(0.4) ? { onRoutes: dice.some(routeIds, 0.5) } : {}),
    ...(routeIds.length > 0 && dice.chance(0.4) ? { rulesOut: dice.some(routeIds, 0.4) } : {}),
    ...someLoadings(making),
    ...(dice.chance(0.2)
      ? { inspection: { name: "a look", cost: 10, minutes: 5, detects: 0.8, falseAlarm: 0.1 } }
      : {}),
  };
}

type OverheadKind = "cost" | "shareOfPrice" | "shareOfListed";

function someOverheads(making: Making, prefix: string, kinds: readonly OverheadKind[]): Overhead[] {
  const { dice, style } = making;
  return Array.from({ length: dice.whole(0, 4) }, (_, index): Overhead => {
    const id = `${prefix}-${index + 1}`;
    const kind = dice.pick(kinds);
    const scale = kind === "cost" ? 300 : 0.5;
    return { id, name: id, [kind]: amountAbout(dice, style, scale), ...someLoadings(making) };
  });
}

function someWholeMachine(making: Making): Pick<EstimateDocument, "wholeMachine"> {
  const { dice } = making;
  const list = (prefix: string) =>
    Array.from({ length: dice.whole(1, 4) }, (_, index) =>
      someOperation(making, `${prefix}-${index + 1}`, 0.15),
    );
  if (dice.chance(0.2)) return {};
  return {
    wholeMachine: {
      ...(dice.chance(0.8) ? { before: list("strip") } : {}),
      ...(dice.chance(0.8) ? { after: list("build") } : {}),
    },
  };
}

/** What the owner pays, earns, owes and can do. */
function someTerms(
  making: Making,
): Partial<EstimateDocument> & Pick<EstimateDocument, "labour" | "overheads"> {
  const { dice, style } = making;
  const rates = trades.map((trade) => [trade, amountAbout(dice, style, 80)]);
  const price = dice.chance(0.7) ? dice.pick([0, 1000, 2400]) : undefined;
  const shares = price === undefined ? (["cost"] as const) : (["cost", "shareOfPrice"] as const);
  return {
    labour: {
      ownHourValue: dice.pick([0, 12, 25.5]),
      ownHoursPerWeek: positiveAbout(dice, style, dice.pick([8, 10, 16])),
      shopRates: Object.fromEntries(rates),
    },
    overheads: someOverheads(making, "overhead", [...shares, "shareOfListed"]),
    ...(price === undefined
      ? {}
      : { acquisition: { price, extras: someOverheads(making, "extra", shares) } }),
    ...(dice.chance(0.6) ? { taxPercent: dice.pick([0, 7, 20]) } : {}),
    ...(dice.chance(0.2) ? { reclaimsTax: dice.chance(0.7) } : {}),
    ...(dice.chance(0.2)
      ? { shop: { costRate: amountAbout(dice, style, 40), chargeRate: 60, partsMarkUpPercent: 15 } }
      : {}),
    ...(dice.chance(0.5) ? { carrying: { perMonth: amountAbout(dice, style, 50) } } : {}),
    ...(dice.chance(0.4) ? { budget: { amount: 3000, includesPurchase: dice.chance(0.5) } } : {}),
    ...(dice.chance(0.3) ? { acceptableRisk: 0.3 } : {}),
    ...(dice.chance(0.3) ? { acceptableNetCost: 1500 } : {}),
    ...(dice.chance(0.4)
      ? {
          spent: {
            cash: dice.pick([0, 640.5]),
            ...(dice.chance(0.5) ? { ownHours: 22 } : {}),
            ...(dice.chance(0.5) ? { firmOrders: 110 } : {}),
          },
        }
      : {}),
    ...(dice.chance(0.75) ? { value: someValue(making) } : {}),
  };
}

function someValue(making: Making): NonNullable<EstimateDocument["value"]> {
  const { dice, style } = making;
  return {
    finished: dice.chance(0.9) ? amountAbout(dice, style, 9000) : effectAbout(dice, style, 500),
    ...someLoadings(making),
    selling: {
      commission: dice.pick([0, 0.05, 0.1]),
      ...(dice.chance(0.5) ? { fixed: amountAbout(dice, style, 300) } : {}),
      ...(dice.chance(0.5) ? { months: amountAbout(dice, style, 4) } : {}),
    },
  };
}

/**
 * Makes up a valid document that exercises what one draw can do: the same one for the same seed, on every machine.
 *
 * @param seed any whole number
 * @param size number of parts; without it from 0 to 9
 */
export function generatedDocument(seed: number, size?: number): EstimateDocument {
  const dice = diceOf(seed);
  const bare: Making = {
    dice,
    style: dice.pick(["stepped", "smooth"] as const),
    drivers: dice.some(driverIds, 0.5).map((id) => ({ id, name: id })),
    suppliers: [],
    lots: dice.pick([["chrome"], ["chrome", "zinc"]]),
    supplierShare: dice.pick([0.2, 0.5, 0.8]),
  };
  const suppliers = someSuppliers(bare, dice.pick([0, 1, 2, 3, 3]));
  const making = { ...bare, suppliers };
  const parts = Array.from({ length: size ?? dice.whole(0, 9) }, (_, index) =>
    somePart(making, `part-${index + 1}`),
  );
  const findings = Array.from({ length: dice.whole(0, parts.length + 1) }, (_, index) =>
    someFinding(making, `finding-${index + 1}`, parts),
  );
  const document: EstimateDocument = {
    format: "restoration-estimate/1",
    title: `Made-up machine ${seed}`,
    currency: "USD",
    pricesAsOf: "2026-06",
    vehicle: { kind: "motorcycle", make: "Merrowdale", model: "Tarn", year: 1961 },
    drivers: making.drivers,
    suppliers,
    ...someWholeMachine(making),
    parts,
    findings,
    ...someTerms(making),
  };
  addPrecedence(document, dice, dice.pick([0, 0.1, 0.3]));
  return document;
}
