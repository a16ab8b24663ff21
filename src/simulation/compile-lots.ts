import type { EstimateDocument, Supplier } from "../domain/estimate-document.ts";
import type { Operation } from "../domain/operation.ts";
import type { Uncertain } from "../domain/uncertain.ts";
import { type Compiler, lotName, scattering } from "./compile-operation.ts";
import type { Items } from "./items.ts";
import { type DeparturePlan, type LotPlan, seriesNames } from "./program.ts";
import { sizeQuantity } from "./quantity.ts";
import { shapeOf } from "./quantity-shape.ts";
import { streamKey } from "./stream-key.ts";

/** One lot by name: a supplier's id and the lot's own name, empty when none is given. */
export interface LotIdentity {
  readonly supplier: number;
  readonly lot: string;
}

/**
 * Lists the lots of a document: suppliers as declared, each supplier's lots by first appearance.
 *
 * @returns the lots in that order, and the position of each by `supplier/lot`
 */
export function lotsOf(
  document: EstimateDocument,
  items: Items,
): { lots: LotIdentity[]; position: Map<string, number> } {
  const names = new Set<string>();
  for (const { work } of items.list) {
    const name = "revealedAt" in work ? undefined : lotName(work as Operation);
    if (name !== undefined) names.add(name);
  }
  const lots: LotIdentity[] = [];
  const position = new Map<string, number>();
  document.suppliers.forEach(({ id }, supplier) => {
    for (const name of names) {
      if (!name.startsWith(`${id}/`)) continue;
      position.set(name, lots.length);
      lots.push({ supplier, lot: name.slice(id.length + 1) });
    }
  });
  return { lots, position };
}

/** Whole-machine departures come after all others when one must be sent; a series holds fewer than this many. */
const seriesStride = 100_000;

/**
 * Compiles a lot; each departure gets its own draws of charge, freight and lead when first needed.
 *
 * @param departures every departure compiled so far: a new one is appended
 */
export function compileLot(
  compiler: Compiler,
  { supplier: position, lot }: LotIdentity,
  lotPosition: number,
  departures: DeparturePlan[],
): LotPlan {
  const supplier = compiler.document.suppliers[position]!;
  const compileDeparture = (series: number, number: number): DeparturePlan => {
    const path = `suppliers/${supplier.id}/${lot}/${seriesNames[series]}/${number + 1}`;
    const whole = series === 2 ? compiler.lotPosition.size * 2 : 0;
    const departure = {
      index: departures.length,
      supplier: position,
      order: (whole + lotPosition * 2 + (series === 1 ? 1 : 0)) * seriesStride + number,
      ...departureColumns(number === 0 && series !== 1 ? compiler : scattering(compiler), supplier, path),
    };
    departures.push(departure);
    return departure;
  };
  return { supplier: position, departures: [[compileDeparture(0, 0)], [], []], compileDeparture };
}

function departureColumns(compiler: Compiler, supplier: Supplier, path: string) {
  const mixture = compiler.mixer.cost(supplier.trade, supplier.drivers);
  const column = (uncertain: Uncertain | undefined, purpose: string) =>
    uncertain === undefined
      ? compiler.zero
      : compiler.column(sizeQuantity(streamKey(path, purpose), shapeOf(uncertain), 0, mixture));
  return {
    charge: column(supplier.batchCharge, "charge"),
    freight: column(supplier.freightPerBatch, "freight"),
    lead: column(supplier.leadWeeks, "lead"),
  };
}
