import type { EstimateDocument } from "../../../src/domain/estimate-document.ts";
import type { Operation } from "../../../src/domain/operation.ts";
import { supplierLoadings } from "./plain-till.ts";
import type { Chance, Departure, Job, Series, Step } from "./plain-types.ts";

/** All departures of one draw, in the order in which they were first joined. */
export interface Yard {
  document: EstimateDocument;
  chance: Chance;
  departures: Departure[];
}

/** How many visits one part, or the whole machine, has made in each (supplier, lot, series). */
export type VisitCounts = Map<string, number>;

function joinDeparture(yard: Yard, counts: VisitCounts, first: Job, series: Series): Departure {
  const supplier = yard.document.suppliers.find(({ id }) => id === first.work.supplier)!;
  const lot = first.work.lot ?? "";
  const place = `${supplier.id}/${lot}/${series}`;
  const n = (counts.get(place) ?? 0) + 1;
  counts.set(place, n);
  const known = yard.departures.find(
    (other) => other.supplier === supplier && other.lot === lot && other.series === series && other.n === n,
  );
  if (known) return known;
  const leadWeeks = yard.chance.amount(
    `suppliers/${place}/${n}|lead`,
    supplier.leadWeeks,
    supplierLoadings(yard.document, supplier),
  );
  const departure: Departure = { supplier, lot, series, n, jobs: [], leadWeeks };
  yard.departures.push(departure);
  return departure;
}

const isSamePlace = (one: Job | undefined, other: Job) =>
  one !== undefined && one.work.supplier === other.work.supplier && one.work.lot === other.work.lot;

/** What one job without a supplier is on its chain. */
export function stepOf(job: Job): Step {
  const { after, turn } = job;
  const paths = [job.path];
  if (job.work.by === "owner" && job.work.hours !== undefined) {
    return { kind: "owner", paths, after, hours: job.ownHours, leadWeeks: job.leadWeeks ?? 0, turn };
  }
  return { kind: "shop", paths, after, weeks: job.leadWeeks ?? job.shopHours / 40 };
}

/** The steps of one route, try or whole-machine list; jobs that follow each other at one supplier and lot are one visit. */
export function stepsOf(yard: Yard, jobs: Job[], counts: VisitCounts, series: Series): Step[] {
  const steps: Step[] = [];
  let before: Job | undefined;
  for (const job of jobs) {
    const last = steps.at(-1);
    if (job.work.supplier === undefined) {
      steps.push(stepOf(job));
    } else if (last?.kind === "visit" && isSamePlace(before, job)) {
      last.paths.push(job.path);
      last.after.push(...job.after);
      last.ownLeadWeeks += job.leadWeeks ?? 0;
      last.departure.jobs.push(job);
    } else {
      const departure = joinDeparture(yard, counts, job, series);
      departure.jobs.push(job);
      const after = [...job.after];
      steps.push({ kind: "visit", paths: [job.path], after, ownLeadWeeks: job.leadWeeks ?? 0, departure });
    }
    before = job;
  }
  return steps;
}

function operationsInDocumentOrder(document: EstimateDocument): Operation[] {
  const routes = document.parts.flatMap((part) => part.routes);
  return [
    ...(document.wholeMachine?.before ?? []),
    ...routes.flatMap((route) => [
      ...route.operations,
      ...(route.purchase?.outcomes ?? []).flatMap((outcome) => outcome.operations ?? []),
    ]),
    ...(document.wholeMachine?.after ?? []),
  ];
}

/** The departures in the order in which one is made to leave when nothing can move. */
export function inForcingOrder({ document, departures }: Yard): Departure[] {
  const operations = operationsInDocumentOrder(document);
  const rank = ({ supplier, lot, series, n }: Departure) => [
    series === "whole" ? 1 : 0,
    document.suppliers.indexOf(supplier),
    operations.findIndex((other) => other.supplier === supplier.id && (other.lot ?? "") === lot),
    series === "late" ? 1 : 0,
    n,
  ];
  return departures.toSorted((one, other) => {
    const ranks = rank(other);
    const difference = rank(one).map((value, index) => value - ranks[index]!);
    return difference.find((value) => value !== 0) ?? 0;
  });
}
