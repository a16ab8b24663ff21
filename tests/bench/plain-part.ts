import type { Operation } from "../../src/domain/operation.ts";
import type { Part } from "../../src/domain/part.ts";
import type { Uncertain } from "../../src/domain/uncertain.ts";
import { pert } from "./bench-operations.ts";

/** Where parts go, four to a lot. */
const finishes = [
  { method: "replate", trade: "plating", supplier: "plater" },
  { method: "repaint", trade: "paint", supplier: "painter" },
  { method: "powder-coat", trade: "powder", supplier: "coater" },
] as const;
const lotSize = 4;

/** A cost about this, skewed to the dear side. */
const about = (amount: number): Uncertain => ({ kind: "lognormal", p10: amount * 0.7, p90: amount * 1.6 });

/** Work at the owner's bench that takes a known time and uses materials up. */
const prepare = (amount: number): Operation => ({
  id: "prepare",
  name: "Prepare",
  trade: "general",
  cost: pert(amount * 0.5, amount, amount * 3),
  hours: 3,
  by: "owner",
});

/**
 * The part at a place of the plain document: finished by a supplier, which may fail, else bought; every other one is
 * prepared at the owner's bench first.
 *
 * @param place from 0
 */
export function plainPart(place: number): Part {
  const dearness = 0.6 + ((place * 7) % 19) / 16;
  const lot = Math.floor(place / lotSize);
  const { method, trade, supplier } = finishes[lot % finishes.length]!;
  const finish: Operation = {
    id: "finish",
    name: "Finish",
    trade,
    supplier,
    lot: `lot-${lot + 1}`,
    cost: place % 4 === 3 ? pert(60 * dearness, 90 * dearness, 190 * dearness) : about(95 * dearness),
    leadWeeks: { kind: "lognormal", p10: 0.5, p90: 4 },
  };
  const buy: Operation = {
    id: "buy",
    name: "Buy",
    trade: "parts",
    cost: about(140 * dearness),
    leadWeeks: 2,
  };
  return {
    id: `part-${place + 1}`,
    name: `Part ${place + 1}`,
    class: "bracket",
    condition: { band: "tired" },
    routes: [
      {
        id: "finish",
        method,
        operations: place % 2 === 0 ? [prepare(8 * dearness), finish] : [finish],
        failure: { probability: 0.06 + (place % 5) / 25, after: "finish" },
      },
      { id: "copy", method: "reproduction", operations: [buy] },
    ],
  };
}
