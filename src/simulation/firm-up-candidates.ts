import { quantilesOf } from "../numeric/quantiles-of.ts";
import type { EstimateDocument, Finding } from "../domain/estimate-document.ts";
import type { Operation } from "../domain/operation.ts";
import type { KeptDraws } from "./firm-up-draws.ts";
import { type ItemPlace, itemPlaces } from "./item-places.ts";
import type { Simulation } from "./simulation.ts";

/** Candidates that are worked out draw by draw. */
const mostWorkedOut = 20;

/** Something whose price could be made firm. */
export interface Candidate {
  readonly place: ItemPlace;
  /** What is paid for it by draw kept; 0 where it is not paid. */
  readonly paid: Float32Array;
  /** Mean over the draws in which it is paid. */
  readonly price: number;
  /** By how much P80 - P50 narrows to first order when the price is firm. */
  readonly promise: number;
}

/**
 * Finds what is paid, at more than one price, and is not firm yet, and among that what to first order narrows P80 - P50 of
 * the cash the most: by the mean of what it costs above its mean price where the cash is near its P80, less that where it
 * is near its P50.
 *
 * @returns at most 20, most promising first
 */
export function mostPromising({ program, outcomes, withLines }: Simulation, draws: KeptDraws): Candidate[] {
  if (!withLines) return [];
  const weights = promiseWeights(draws);
  const repeated = paidAtEveryTry(program.document);
  return itemPlaces(program)
    .flatMap((place, item): Candidate[] => {
      if (!isOpen(place.work) || repeated.has(place.path)) return [];
      const paid = outcomes.operationCash[item]!;
      const candidate = { place, paid, ...priceOf(paid, weights) };
      return candidate.promise > 0 ? [candidate] : [];
    })
    .sort((a, b) => b.promise - a.promise)
    .slice(0, mostWorkedOut);
}

/** Whether a price is to be paid that is not known yet. */
function isOpen(work: Operation | Finding): boolean {
  const { basis, state }: { basis?: string | undefined; state?: string | undefined } = work;
  const isUncertain = typeof work.cost === "object" || (work.hours !== undefined && work.by === "shop");
  return isUncertain && basis !== "firm" && state !== "done" && state !== "absent";
}

/** What a draw's deviation from the mean price counts: 0 where the cash is near neither percentile. */
function promiseWeights({ cash, follows }: KeptDraws): Float64Array {
  const weights = new Float64Array(cash.length);
  for (const [probability, sign] of [
    [0.8, 1],
    [0.5, -1],
  ] as const) {
    const near = drawsNear(probability, cash);
    for (const draw of near) weights[draw] = weights[draw]! + (sign * follows[draw]!) / near.length;
  }
  return weights;
}

/** Draws whose cash lies within fifteen percentiles of one: enough of them that chance does not choose. */
function drawsNear(probability: number, cash: Float64Array): Int32Array {
  const ends = [probability - 0.15, probability + 0.15];
  const [low, high] = quantilesOf(cash, 0, cash.length, ends) as [number, number];
  const near = new Int32Array(cash.length);
  let count = 0;
  for (let draw = 0; draw < cash.length; draw++) {
    if (cash[draw]! >= low && cash[draw]! <= high) near[count++] = draw;
  }
  return near.subarray(0, count);
}

/** The mean over the draws in which something is paid, and what it promises: 0 where the price never varies. */
function priceOf(paid: Float32Array, weights: Float64Array): { price: number; promise: number } {
  let count = 0;
  let sum = 0;
  let weight = 0;
  let weighted = 0;
  let least = Infinity;
  let most = 0;
  for (let draw = 0; draw < weights.length; draw++) {
    const amount = paid[draw]!;
    if (amount <= 0) continue;
    count += 1;
    sum += amount;
    weight += weights[draw]!;
    weighted += weights[draw]! * amount;
    least = amount < least ? amount : least;
    most = amount > most ? amount : most;
  }
  if (least >= most) return { price: most, promise: 0 };
  const price = sum / count;
  return { price, promise: weighted - price * weight };
}

/** Paths of what a purchase that may be tried again pays at every try: it has no one price. */
function paidAtEveryTry({ parts }: EstimateDocument): ReadonlySet<string> {
  const paths = new Set<string>();
  for (const part of parts) {
    for (const { id, purchase, operations } of part.routes) {
      if ((purchase?.tries ?? 1) === 1) continue;
      const judged = operations.findIndex((operation) => operation.id === purchase?.judgedAfter);
      const repeated = judged < 0 ? operations : operations.slice(0, judged + 1);
      for (const operation of repeated) paths.add(`${part.id}/${id}/${operation.id}`);
    }
  }
  return paths;
}
