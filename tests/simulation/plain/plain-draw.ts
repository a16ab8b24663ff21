import type { EstimateDocument } from "../../../src/domain/estimate-document.ts";
import { drawnChance } from "./plain-chance.ts";
import { linesOf, sumOf, walkMachine } from "./plain-machine.ts";
import type { MachineWalk } from "./plain-machine.ts";
import { plainWeeks } from "./plain-schedule.ts";
import type { Chance, Job, PlainOutcome, Source } from "./plain-types.ts";

/**
 * Walks one draw of a document straight from the design, slowly and with nothing prepared beforehand: the second
 * opinion the engine is compared with.
 */
export function plainDraw(document: EstimateDocument, source: Source): PlainOutcome {
  const chance = drawnChance(document, source);
  const walk = walkMachine(document, chance, source.quantile);
  const lines = linesOf(document, walk);
  const toGo = sumOf(lines);
  const restorationCash = (document.spent?.cash ?? 0) + (document.spent?.firmOrders ?? 0) + toGo;

  const jobs = jobsOf(walk);
  const ownHours = jobs.reduce((sum, job) => sum + job.ownHours, document.spent?.ownHours ?? 0);
  const ownHoursCost = document.shop ? 0 : ownHours * document.labour.ownHourValue;
  const weeks = plainWeeks({
    phases: walk.phases,
    departures: walk.departures,
    ownHoursPerWeek: chance.amount("labour|ownHoursPerWeek", document.labour.ownHoursPerWeek, {}),
  });
  const carrying = carryingCash(document, chance, weeks);
  const allIn = acquisitionCash(document, walk) + restorationCash + carrying;
  return {
    restorationCash,
    toGo,
    withOwnHours: restorationCash + ownHoursCost,
    carrying,
    allIn,
    weeks,
    ownHours,
    shopHours: jobs.reduce((sum, job) => sum + job.shopHours, 0),
    complete: walk.parts.every(({ route }) => route !== undefined),
    lines,
    suppliers: suppliersOf(document, walk, jobs),
    parts: walk.parts.map(({ part, route }) => ({ id: part.id, route: route?.id })),
    ...valueOf(document, chance, walk, allIn, ownHoursCost),
    shareOfPrice: shareOfPrice(document, walk),
  };
}

function jobsOf({ parts, findings, whole }: MachineWalk): Job[] {
  return [...parts.flatMap((part) => part.jobs), ...[...findings, ...whole].map(({ job }) => job)];
}

function carryingCash({ carrying, value }: EstimateDocument, chance: Chance, weeks: number): number {
  if (!carrying) return 0;
  const sellingMonths = chance.amount("selling|months", value?.selling.months, {});
  return chance.amount("carrying|perMonth", carrying.perMonth, {}) * ((weeks * 12) / 52 + sellingMonths);
}

function acquisitionCash({ acquisition }: EstimateDocument, { till }: MachineWalk): number {
  const extras = acquisition?.extras ?? [];
  return extras.reduce((sum, extra) => sum + till.overhead("extras", extra, 0), acquisition?.price ?? 0);
}

function shareOfPrice({ acquisition, overheads }: EstimateDocument, { till }: MachineWalk): number {
  const extras = acquisition?.extras ?? [];
  return (
    extras.reduce((sum, extra) => sum + till.shareOfPrice("extras", extra), 0) +
    overheads.reduce((sum, overhead) => sum + till.shareOfPrice("overheads", overhead), 0)
  );
}

/** All that goes to each supplier: what the operations there take, and its departures. */
function suppliersOf(
  document: EstimateDocument,
  { departures, till }: MachineWalk,
  jobs: Job[],
): PlainOutcome["suppliers"] {
  return document.suppliers.map(({ id }) => {
    const own = departures.filter((departure) => departure.supplier.id === id);
    const there = jobs.filter((job) => job.work.supplier === id);
    const worked = there.reduce((sum, job) => sum + till.withTax(job), 0);
    const charged = own.reduce((sum, departure) => sum + till.departureCash(departure), 0);
    return { id, cash: worked + charged, departures: own.length };
  });
}

function valueOf(
  { value }: EstimateDocument,
  chance: Chance,
  { parts }: MachineWalk,
  allIn: number,
  ownHoursCost: number,
): Pick<PlainOutcome, "finished" | "proceeds" | "gap" | "gapWithOwnHours"> {
  if (!value) return {};
  let finished = chance.effect("value|finished", value.finished, value.drivers ?? {});
  for (const { part, route } of parts) {
    finished += route
      ? chance.effect(`parts/${part.id}/${route.id}|value`, route.valueEffect, {})
      : chance.effect(`parts/${part.id}/unresolved|value`, part.ifUnresolved?.valueEffect, {});
  }
  const fixed = chance.amount("selling|fixed", value.selling.fixed, {});
  const proceeds = finished * (1 - value.selling.commission) - fixed;
  const gap = proceeds - allIn;
  return { finished, proceeds, gap, gapWithOwnHours: gap - ownHoursCost };
}
