import type { EstimateDocument } from "../domain/estimate-document.ts";
import type { Operation } from "../domain/operation.ts";
import { uncertainQuantile } from "../domain/uncertain-quantile.ts";
import type { Uncertain } from "../domain/uncertain.ts";
import { lotName } from "./compile-operation.ts";
import { type Items, reworkPath } from "./items.ts";

/** Hours a shop works in a week, where it gives no lead time. */
export const shopHoursPerWeek = 40;

/** Medians closer than this many weeks are a tie. */
const tieWeeks = 1e-9;

/**
 * Puts everything the owner may do in order of preference: the longest median time still to go on its own route first,
 * ties in document order.
 *
 * @returns by item: its place in that order, 0 first
 */
export function compileOwnerRank(document: EstimateDocument, items: Items): Int32Array {
  const toGo = new Float64Array(items.list.length);
  for (const { measured, followed } of sequencesOf(document, items)) {
    const remaining = medianWeeksToGo(document, items, [...measured, ...followed]);
    measured.forEach((position, index) => (toGo[position] = remaining[index]!));
  }
  const order = Array.from(toGo.keys());
  const rounded = Array.from(toGo, (weeks) => Math.round(weeks / tieWeeks));
  order.sort((a, b) => rounded[b]! - rounded[a]! || a - b);
  const rank = new Int32Array(order.length);
  order.forEach((position, place) => (rank[position] = place));
  return rank;
}

/** Items that follow one another, and those that follow them without being measured here. */
interface Sequence {
  readonly measured: readonly number[];
  readonly followed: readonly number[];
}

function sequencesOf(document: EstimateDocument, items: Items): Sequence[] {
  const positions = (under: string, works: readonly { id: string }[] | undefined) =>
    (works ?? []).map(({ id }) => items.position.get(`${under}/${id}`)!);
  const sequences: Sequence[] = [
    { measured: positions("whole", document.wholeMachine?.before), followed: [] },
    { measured: positions("whole", document.wholeMachine?.after), followed: [] },
    ...document.findings.map((finding) => ({ measured: positions("findings", [finding]), followed: [] })),
  ];
  for (const part of document.parts) {
    for (const { id, operations, purchase } of part.routes) {
      const path = `${part.id}/${id}`;
      sequences.push({ measured: positions(path, operations), followed: [] });
      const judged = operations.findIndex((operation) => operation.id === purchase?.judgedAfter);
      const rest = judged < 0 ? [] : positions(path, operations.slice(judged + 1));
      purchase?.outcomes?.forEach((outcome, position) => {
        sequences.push({
          measured: positions(reworkPath(path, position), outcome.operations),
          followed: rest,
        });
      });
    }
  }
  return sequences;
}

function medianWeeksToGo(document: EstimateDocument, items: Items, sequence: readonly number[]): number[] {
  const remaining = new Array<number>(sequence.length);
  let weeks = 0;
  let visit: string | undefined;
  for (let index = sequence.length - 1; index >= 0; index--) {
    const { work, pieces } = items.list[sequence[index]!]!;
    if (!("state" in work && work.state === "done")) {
      const lot = lotName(work as Operation);
      if (lot !== undefined && lot !== visit) weeks += supplierWeeks(document, work as Operation);
      visit = lot;
      weeks += ownWeeks(document, work as Operation, pieces, lot !== undefined);
    }
    remaining[index] = weeks;
  }
  return remaining;
}

function supplierWeeks(document: EstimateDocument, operation: Operation): number {
  return median(document.suppliers.find(({ id }) => id === operation.supplier)?.leadWeeks);
}

function ownWeeks(document: EstimateDocument, work: Operation, pieces: number, away: boolean): number {
  const lead = median(work.leadWeeks);
  if (work.hours === undefined || away) return lead;
  const hours = median(work.hours) * pieces;
  if (work.by === "owner") return hours / median(document.labour.ownHoursPerWeek) + lead;
  return work.leadWeeks === undefined ? hours / shopHoursPerWeek : lead;
}

function median(uncertain: Uncertain | undefined): number {
  return uncertain === undefined ? 0 : Math.max(0, uncertainQuantile(uncertain)(0));
}
