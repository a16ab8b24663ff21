import type { EstimateDocument, Finding } from "../domain/estimate-document.ts";
import type { Operation } from "../domain/operation.ts";
import type { Uncertain } from "../domain/uncertain.ts";
import type { Trade } from "../domain/vocabulary.ts";
import type { Column } from "./columns.ts";
import type { Items } from "./items.ts";
import type { Mixer, Mixture } from "./mixture.ts";
import { type OperationPlan, hands } from "./program.ts";
import { shapeOf } from "./quantity-shape.ts";
import { type Quantity, sizeQuantity } from "./quantity.ts";
import { streamKey } from "./stream-key.ts";

/** What every compiling step needs to know of the document. */
export interface Compiler {
  readonly document: EstimateDocument;
  readonly mixer: Mixer;
  readonly items: Items;
  /** Column of each trade's rate an hour. */
  readonly rates: ReadonlyMap<Trade, Column>;
  /** Position of each lot by supplier and lot name. */
  readonly lotPosition: ReadonlyMap<string, number>;
  readonly zero: Column;
  /** Gives a quantity its column. */
  readonly column: (quantity: Quantity) => Column;
  /** The routes that may be tried and fail, found so far. */
  readonly fallible: { part: number; route: number }[];
}

/** A compiler of what only some draws come to: its quantities are drawn independently. */
export function scattering(compiler: Compiler): Compiler {
  return { ...compiler, column: (quantity) => compiler.column({ ...quantity, scattered: true }) };
}

/** The name of a lot: its supplier's id and its own, empty when none is given. */
export function lotName(operation: Operation): string | undefined {
  return operation.supplier === undefined ? undefined : `${operation.supplier}/${operation.lot ?? ""}`;
}

/**
 * The factor tax puts on what is paid: 1 + the supplier's own percentage, or else the document's; 1 when it is reclaimed.
 */
export function taxFactor(document: EstimateDocument, supplierId: string | undefined): number {
  if (document.reclaimsTax === true) return 1;
  const supplier = document.suppliers.find((candidate) => candidate.id === supplierId);
  return 1 + (supplier?.taxPercent ?? document.taxPercent ?? 0) / 100;
}

/**
 * Compiles an operation, or the work of a finding, for one try.
 *
 * @param position its place among the items
 * @param path the path its streams are keyed by
 * @param attempt the try, from 1; undefined outside purchases
 */
export function compileOperation(
  compiler: Compiler,
  position: number,
  path: string,
  attempt?: number,
): OperationPlan {
  const { document, mixer, items, zero } = compiler;
  const { work, pieces } = items.list[position]!;
  const operation = work as Partial<Operation> & (Operation | Finding);
  const size = (uncertain: Uncertain | undefined, purpose: string, mixture: () => Mixture) =>
    uncertain === undefined
      ? zero
      : compiler.column(sizeQuantity(streamKey(path, purpose, attempt), shapeOf(uncertain), 0, mixture()));
  const byCost = () => mixer.cost(work.trade, work.drivers);
  const supplier = operation.supplier;
  return {
    item: position,
    cost: size(work.cost, "cost", byCost),
    hasCost: work.cost !== undefined,
    hours: size(work.hours, "hours", () => mixer.hours(work.drivers)),
    pieces,
    hands: work.hours === undefined ? hands.none : work.by === "owner" ? hands.owner : hands.shop,
    rate: compiler.rates.get(work.trade) ?? zero,
    taxFactor: taxFactor(document, supplier),
    lead: size(work.leadWeeks, "lead", byCost),
    hasLead: work.leadWeeks !== undefined,
    lot: supplier === undefined ? -1 : compiler.lotPosition.get(`${supplier}/${operation.lot ?? ""}`)!,
    isParts: work.trade === "parts",
    done: operation.state === "done" && (attempt ?? 1) === 1,
  };
}
