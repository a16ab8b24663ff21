import type { EstimateDocument } from "../../../src/domain/estimate-document.ts";
import { loadingOn } from "./plain-chance.ts";
import type { Chance, Job, Turn, Work } from "./plain-types.ts";

/** What to do: the work, where its streams are and what must come before it. */
interface Order {
  path: string;
  work: Work;
  quantity: number;
  /** The try of a purchase, from 1. */
  tried?: number | undefined;
  /** Path of the list it stands in, which bare ids in `after` refer to. */
  listPath: string;
  turn: Turn;
}

/** The path an entry of `after` means: a bare id, `whole/operation` or `part/route/operation`. */
function referredPath(reference: string, listPath: string): string {
  const pieces = reference.split("/");
  if (pieces.length === 1) return `${listPath}/${reference}`;
  return pieces.length === 2 ? reference : `parts/${reference}`;
}

/** Does a piece of work once, with this draw's quantities. */
export function doJob(document: EstimateDocument, chance: Chance, order: Order): Job {
  const { path, work, tried } = order;
  const key = (purpose: string) => `${path}|${purpose}${tried === undefined ? "" : `|${tried}`}`;
  const prices = work.drivers ?? loadingOn(document, work.trade, 0.55);
  const pace = work.drivers ?? loadingOn(document, "pace", 0.55);
  const times = work.per === "job" ? 1 : order.quantity;
  const hours = chance.amount(key("hours"), work.hours, pace) * times;
  return {
    path,
    work,
    cost: chance.amount(key("cost"), work.cost, prices) * times,
    ownHours: work.by === "owner" ? hours : 0,
    shopHours: work.by === "shop" ? hours : 0,
    leadWeeks: work.leadWeeks === undefined ? undefined : chance.amount(key("lead"), work.leadWeeks, prices),
    after: (work.after ?? []).map((reference) => referredPath(reference, order.listPath)),
    turn: order.turn,
  };
}
