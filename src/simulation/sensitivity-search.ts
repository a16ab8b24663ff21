import { type OrderedCells, makeOrderedCells } from "../numeric/ordered-cells.ts";
import type { Influence } from "../domain/sensitivity.ts";
import type { ItemIdentity } from "./sensitivity-items.ts";
import type { Outputs } from "./sensitivity-outputs.ts";

/** What explains less of an answer's variance than this is not told. */
const leastShare = 1e-4;

/** What has been found to move each answer so far, with room to look at one item after the other. */
export interface Search {
  readonly outputs: Outputs;
  readonly cells: OrderedCells;
  readonly levels: Uint8Array;
  /** By output. */
  readonly found: readonly Influence[][];
}

/** Begins to look for what moves the answers. */
export function beginSearch(outputs: Outputs): Search {
  return {
    outputs,
    cells: makeOrderedCells(outputs.draws),
    levels: new Uint8Array(outputs.draws),
    found: [[], [], []],
  };
}

/** Whether a share of an answer's variance is worth telling. */
export function isTold(share: number): boolean {
  return Math.abs(share) >= leastShare;
}

/**
 * Whether a correlation ratio is worth telling: it must also be more than chance would give something of no meaning, by
 * three of the standard deviations of epsilon^2 then, sqrt(2 (groups - 1)) / draws.
 */
export function isRatioTold(ratio: number, groups: number, draws: number): boolean {
  return isTold(ratio) && ratio > (3 * Math.sqrt(2 * (groups - 1))) / draws;
}

/** Notes that something moves an answer. */
export function note(
  { found }: Search,
  output: number,
  { kind, id, pointer, words }: ItemIdentity,
  figures: Omit<Influence, "kind" | "id" | "pointer" | "words">,
): void {
  found[output]!.push({ kind, id, pointer, words: words(), ...figures });
}

/** What was found to move an answer, strongest first; ties in the order of the document. */
export function strongestFirst({ found }: Search, output: number): Influence[] {
  const strength = ({ varianceShare, correlationRatio }: Influence) =>
    Math.abs((varianceShare ?? correlationRatio)!.value);
  return found[output]!.toSorted((a, b) => strength(b) - strength(a));
}
