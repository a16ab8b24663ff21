import type { EstimateDocument, Finding } from "../../../src/domain/estimate-document.ts";
import type { Operation } from "../../../src/domain/operation.ts";
import type { Route } from "../../../src/domain/part.ts";
import type { Uncertain } from "../../../src/domain/uncertain.ts";
import type { Source, Work } from "./plain-types.ts";

/** Median weeks still to go, by which the owner chooses: the same in every draw. */
export interface ToGo {
  /** A list of operations done from first to last. */
  list(operations: Operation[], quantity: number): number;
  finding(finding: Finding): number;
}

/** Where in a purchase's operations the outcome is judged. */
export function judgedIndex(route: Route): number {
  const id = route.purchase?.judgedAfter;
  return id === undefined
    ? route.operations.length - 1
    : route.operations.findIndex((operation) => operation.id === id);
}

/** Median times read off the document. */
export function medianToGo(document: EstimateDocument, quantile: Source["quantile"]): ToGo {
  const median = (uncertain: Uncertain | undefined) =>
    uncertain === undefined ? 0 : Math.max(0, quantile(uncertain, 0));
  const ownHoursPerWeek = median(document.labour.ownHoursPerWeek);

  const own = (work: Work, quantity: number): number => {
    const hours = median(work.hours) * (work.per === "job" ? 1 : quantity);
    if (work.hours !== undefined && work.by === "owner")
      return hours / ownHoursPerWeek + median(work.leadWeeks);
    if (work.supplier !== undefined || work.leadWeeks !== undefined) return median(work.leadWeeks);
    return hours / 40;
  };

  const list = (operations: Operation[], quantity: number): number => {
    let weeks = 0;
    let visiting: string | undefined;
    for (const operation of operations) {
      if (operation.state === "done") continue;
      weeks += own(operation, quantity);
      const at =
        operation.supplier === undefined ? undefined : `${operation.supplier}/${operation.lot ?? ""}`;
      if (at !== undefined && at !== visiting) {
        weeks += median(document.suppliers.find((supplier) => supplier.id === operation.supplier)?.leadWeeks);
      }
      visiting = at;
    }
    return weeks;
  };

  return { list, finding: (finding) => own(finding, 1) };
}
