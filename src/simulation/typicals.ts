import { makeChunkState } from "./chunk-state.ts";
import { drawChunk } from "./draw-chunk.ts";
import type { Program } from "./program.ts";

/**
 * What the restoration would cost if everything went typically: likeliest band, first route that works, every quantity
 * at its median, nothing failing, open findings absent, present ones paid, departures charged.
 *
 * @returns cash in currency units, spent included
 */
export function sumOfTypicals(program: Program): number {
  const state = makeChunkState(program, 0, "typical", false);
  drawChunk(state, { key: 0, count: 1 });
  return state.lineCash.reduce((sum, cash) => sum + cash[0]!, program.spentCash);
}
