import type { EstimateDocument, Overhead } from "../domain/estimate-document.ts";
import type { Operation } from "../domain/operation.ts";
import type { Uncertain } from "../domain/uncertain.ts";
import type { Trade } from "../domain/vocabulary.ts";
import type { Column } from "./columns.ts";
import { type Compiler, compileOperation, taxFactor } from "./compile-operation.ts";
import { compileLot, lotsOf } from "./compile-lots.ts";
import { compileOwnerRank } from "./compile-owner-rank.ts";
import { compilePart } from "./compile-part.ts";
import { compilePrecedence } from "./compile-precedence.ts";
import { itemsOf } from "./items.ts";
import { type Mixer, mixerOf } from "./mixture.ts";
import type {
  DeparturePlan,
  FindingPlan,
  LineIdentity,
  OverheadPlan,
  Program,
  ValuePlan,
  WholePlan,
} from "./program.ts";
import { hasRareEvents } from "./rare-events.ts";
import { shapeOf } from "./quantity-shape.ts";
import { type Quantity, eventQuantity, fixedQuantity, sizeQuantity } from "./quantity.ts";
import { streamKey } from "./stream-key.ts";

/**
 * Compiles a document for drawing: every quantity with its stream, table and drivers, every route as a flat plan.
 *
 * @param document a document that has passed every rule
 */
export function compile(document: EstimateDocument): Program {
  const mixer = mixerOf(document);
  const items = itemsOf(document);
  const { lots, position: lotPosition } = lotsOf(document, items);
  const quantities: Quantity[] = [];
  const column = (quantity: Quantity): Column => quantities.push(quantity) - 1;
  const rates = ratesOf(document, (key, rate) =>
    column(sizeQuantity(key, shapeOf(rate), 0, mixer.written(undefined))),
  );
  const zero = column(fixedQuantity(0));
  const fallible: Compiler["fallible"] = [];
  const compiler: Compiler = { document, mixer, items, rates, lotPosition, zero, column, fallible };
  const lines = linesOf(document);
  const lineOf = new Map(lines.map(({ kind, id }, position) => [`${kind}/${id}`, position]));
  const line = (kind: LineIdentity["kind"], id: string) => lineOf.get(`${kind}/${id}`)!;
  const departures: DeparturePlan[] = [];
  let routeCount = 0;
  const parts = document.parts.map((part, position) => {
    const plan = compilePart(compiler, part, position, line("part", part.id), routeCount);
    routeCount += part.routes.length;
    return plan;
  });
  const whole = (works: readonly Operation[] | undefined): WholePlan[] =>
    (works ?? []).map(({ id }) => ({
      line: line("whole", id),
      work: compileOperation(compiler, items.position.get(`whole/${id}`)!, `whole/${id}`),
    }));
  const size = (key: string, uncertain: Uncertain | undefined) => sizeColumn(compiler, key, uncertain);
  const program = {
    document,
    drivers: document.drivers.map(({ id }) => driverQuantity(id, mixer)),
    quantities,
    lines,
    parts,
    findings: document.findings.map((finding) =>
      compileFinding(compiler, finding, line("finding", finding.id)),
    ),
    suppliers: document.suppliers.map(({ id, minimumCharge }) => ({
      id,
      line: line("supplier", id),
      minimumCharge: minimumCharge ?? 0,
      taxFactor: taxFactor(document, id),
    })),
    lots: lots.map((lot, position) => compileLot(compiler, lot, position, departures)),
    departures,
    before: whole(document.wholeMachine?.before),
    after: whole(document.wholeMachine?.after),
    overheads: document.overheads.map((overhead) =>
      compileOverhead(compiler, overhead, "overheads", line("overhead", overhead.id)),
    ),
    extras: (document.acquisition?.extras ?? []).map((extra) =>
      compileOverhead(compiler, extra, "extras", -1),
    ),
    routeCount,
    fallible,
    zero,
    items: items.list,
    precedence: compilePrecedence(items),
    ownerRank: compileOwnerRank(document, items),
    ownHoursPerWeek: size(streamKey("labour", "ownHoursPerWeek"), document.labour.ownHoursPerWeek),
    hasBench: document.shop !== undefined,
    benchRate: size(streamKey("shop", "costRate"), document.shop?.costRate),
    ownHourValue: document.shop === undefined ? document.labour.ownHourValue : 0,
    carryingPerMonth: size(streamKey("carrying", "perMonth"), document.carrying?.perMonth),
    price: document.acquisition?.price ?? 0,
    value: compileValue(compiler),
    spentCash: (document.spent?.cash ?? 0) + (document.spent?.firmOrders ?? 0),
    spentHours: document.spent?.ownHours ?? 0,
  };
  return { ...program, hasRareEvents: hasRareEvents(document, quantities) };
}

/** Every line of the restoration cash, in the order they are reported. */
function linesOf(document: EstimateDocument): LineIdentity[] {
  const whole = [...(document.wholeMachine?.before ?? []), ...(document.wholeMachine?.after ?? [])];
  const as = (kind: LineIdentity["kind"], entries: readonly { id: string; name: string }[]) =>
    entries.map(({ id, name }) => ({ id, kind, name }));
  return [
    ...as("part", document.parts),
    ...as("supplier", document.suppliers),
    ...as("finding", document.findings),
    ...as("overhead", document.overheads),
    ...as("whole", whole),
  ];
}

function ratesOf(
  document: EstimateDocument,
  size: (key: string, rate: Uncertain) => Column,
): ReadonlyMap<Trade, Column> {
  const rates = Object.entries(document.labour.shopRates) as [Trade, Uncertain][];
  return new Map(rates.map(([trade, rate]) => [trade, size(streamKey(`rates/${trade}`, "rate"), rate)]));
}

function sizeColumn(compiler: Compiler, key: string, uncertain: Uncertain | undefined): Column {
  if (uncertain === undefined) return compiler.zero;
  return compiler.column(sizeQuantity(key, shapeOf(uncertain), 0, compiler.mixer.written(undefined)));
}

/** Only its score is read. */
function driverQuantity(id: string, mixer: Mixer) {
  return eventQuantity(streamKey(`drivers/${id}`, "level"), 0.5, mixer.written(undefined), 0);
}

function compileFinding(
  compiler: Compiler,
  finding: EstimateDocument["findings"][number],
  line: number,
): FindingPlan {
  const path = `findings/${finding.id}`;
  const probability = finding.state === "present" ? 1 : finding.state === "absent" ? 0 : finding.probability;
  const mixture = compiler.mixer.condition(finding.drivers);
  const typical = finding.state === "present" ? 1 : 0;
  return {
    line,
    event: compiler.column(eventQuantity(streamKey(path, "event"), probability, mixture, typical)),
    work: compileOperation(compiler, compiler.items.position.get(path)!, path),
    ofPart: finding.part !== undefined,
  };
}

function compileOverhead(compiler: Compiler, overhead: Overhead, list: string, line: number): OverheadPlan {
  const { cost, shareOfPrice, shareOfListed, drivers } = overhead;
  const uncertain = (cost ?? shareOfPrice ?? shareOfListed)!;
  const key = streamKey(`${list}/${overhead.id}`, "cost");
  const taxed = cost !== undefined && list === "overheads";
  return {
    line,
    column: compiler.column(sizeQuantity(key, shapeOf(uncertain), 0, compiler.mixer.written(drivers))),
    of: cost !== undefined ? "cost" : shareOfPrice !== undefined ? "price" : "listed",
    taxFactor: taxed ? taxFactor(compiler.document, undefined) : 1,
  };
}

function compileValue(compiler: Compiler): ValuePlan | undefined {
  const { value } = compiler.document;
  if (value === undefined) return undefined;
  const mixture = compiler.mixer.written(value.drivers);
  return {
    finished: compiler.column(
      sizeQuantity(streamKey("value", "finished"), shapeOf(value.finished), -Infinity, mixture),
    ),
    commission: value.selling.commission,
    fixed: sizeColumn(compiler, streamKey("selling", "fixed"), value.selling.fixed),
    months: sizeColumn(compiler, streamKey("selling", "months"), value.selling.months),
  };
}
