import type { EstimateDocument, Finding } from "../domain/estimate-document.ts";
import type { Operation } from "../domain/operation.ts";

/** One operation or finding of a document; its position in the list is its place in document order. */
export interface Item {
  /** `part/route/op`, `part/route/outcome-2/op`, `whole/op` or `findings/id`. */
  readonly path: string;
  /** Path of the list it stands in: what a bare id in `after` is relative to. */
  readonly list: string;
  readonly work: Operation | Finding;
  /** Pieces one draw counts for. */
  readonly pieces: number;
}

/** Every operation and finding of a document in order, and the position of each path. */
export interface Items {
  readonly list: readonly Item[];
  readonly position: ReadonlyMap<string, number>;
}

/**
 * Lists the operations and findings of a document: before, parts, after, findings.
 *
 * @param document a valid document
 */
export function itemsOf(document: EstimateDocument): Items {
  const list: Item[] = [];
  const add = (under: string, works: readonly (Operation | Finding)[] | undefined, quantity: number) => {
    for (const work of works ?? []) {
      const pieces = "per" in work && work.per === "job" ? 1 : quantity;
      list.push({ path: `${under}/${work.id}`, list: under, work, pieces });
    }
  };
  add("whole", document.wholeMachine?.before, 1);
  for (const part of document.parts) {
    for (const route of part.routes) {
      const path = `${part.id}/${route.id}`;
      add(path, route.operations, part.quantity ?? 1);
      route.purchase?.outcomes?.forEach((outcome, position) => {
        add(reworkPath(path, position), outcome.operations, part.quantity ?? 1);
      });
    }
  }
  add("whole", document.wholeMachine?.after, 1);
  add("findings", document.findings, 1);
  return { list, position: new Map(list.map((item, position) => [item.path, position])) };
}

/** Whether anything is ever paid to others for an item: it costs something, or takes a shop's hours. */
export function mayPay({ work }: Item): boolean {
  return work.cost !== undefined || (work.hours !== undefined && work.by === "shop");
}

/** The path of the list of rework operations of an outcome, `position` from 0. */
export function reworkPath(routePath: string, position: number): string {
  return `${routePath}/outcome-${position + 1}`;
}
