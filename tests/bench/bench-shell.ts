import type { Part, Route } from "../../src/domain/part.ts";
import { buy } from "./bench-operations.ts";

/** What a kind of part is made from: its place in the document and how dear it is beside others of its kind. */
export interface Making {
  id: string;
  dearness: number;
  /** Path of the operation that the last of its fitting waits for. */
  frame: string | undefined;
}

type Odds = Extract<Part["condition"], { odds: unknown }>["odds"];

/** A part without its routes: of known condition, or of these odds. */
export function shell(id: string, kind: string, odds?: Odds): Omit<Part, "routes"> {
  return { id, name: id, class: kind, condition: odds ? { odds } : { band: "tired" } };
}

/** Bought as a copy, the usual fallback. */
export const bought = (id: string, amount: number): Route => ({
  id,
  method: "reproduction",
  operations: [buy(amount)],
});
