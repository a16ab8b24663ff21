import { openChunk } from "./columns.ts";
import { drawOnce } from "./draw-once.ts";
import { makeDrawState } from "./draw-state.ts";
import type { Program } from "./program.ts";

/**
 * What the restoration would cost if everything went typically: likeliest band, first route that works, every quantity
 * at its median, nothing failing, open findings absent, present ones paid, departures charged.
 *
 * @returns cash in currency units, spent included
 */
export function sumOfTypicals(program: Program): number {
  const state = makeDrawState(program, 0, "typical");
  openChunk(state.columns, 0, 1);
  drawOnce(state, 0);
  return state.lineCash.reduce((sum, cash) => sum + cash, program.spentCash);
}
