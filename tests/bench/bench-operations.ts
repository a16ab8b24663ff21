import type { Operation } from "../../src/domain/operation.ts";
import type { Uncertain } from "../../src/domain/uncertain.ts";
import type { Trade } from "../../src/domain/vocabulary.ts";

/** The usual three-point guess. */
export const pert = (low: number, mode: number, high: number): Uncertain => ({
  kind: "pert",
  low,
  mode,
  high,
});
/** Work at the owner's bench, hours skewed to the long side. */
export const own = (id: string, hours: number): Operation => ({
  id,
  name: id,
  trade: "mechanical",
  hours: { kind: "percentiles", p10: hours * 0.6, p50: hours, p90: hours * 2.2 },
  by: "owner",
});
/** Something ordered. */
export const buy = (
  amount: number,
  leadWeeks: Uncertain = { kind: "lognormal", p10: 0.5, p90: 3 },
): Operation => ({
  id: "buy",
  name: "Buy",
  trade: "parts",
  cost: { kind: "lognormal", p10: amount * 0.7, p90: amount * 1.6 },
  leadWeeks,
});
/** Work at a supplier, in a lot of its own or the supplier's one. */
export const away = (
  id: string,
  trade: Trade,
  supplier: string,
  amount: number,
  lot?: string,
): Operation => ({
  id,
  name: id,
  trade,
  supplier,
  ...(lot !== undefined && { lot }),
  cost: pert(amount * 0.7, amount, amount * 2.1),
});
