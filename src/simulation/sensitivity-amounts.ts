import { sortIntoCells } from "../numeric/ordered-cells.ts";
import { sumProducts } from "../numeric/product-sums.ts";
import { roundingShare } from "../numeric/rounding-share.ts";
import type { Measured } from "../domain/estimate-result.ts";
import { type Search, isTold, note } from "./sensitivity-search.ts";
import { type AmountItem, gapAmounts, lineItems } from "./sensitivity-items.ts";
import { measureSections, poolSums } from "./sensitivity-left-out.ts";
import type { Outputs } from "./sensitivity-outputs.ts";
import type { Simulation } from "./simulation.ts";
import { measureTails, tailSumsOf } from "./sensitivity-tails.ts";

const cash = 0;
const gap = 1;

/**
 * Finds the amounts that move the restoration cash and the gap. The lines divide up the variance of the cash; the gap's is
 * divided up among the proceeds, the lines, the purchase and the carrying.
 *
 * @param lineShares shares of the cash's variance, by line
 */
export function searchAmounts(search: Search, simulation: Simulation, lineShares: readonly Measured[]): void {
  const { varies } = search.outputs;
  lineItems(simulation).forEach((line, position) => {
    noteAmount(search, line, varies[cash] ? lineShares[position] : undefined);
  });
  for (const amount of gapAmounts(simulation)) noteAmount(search, amount, undefined);
}

function noteAmount(search: Search, item: AmountItem, ofCash: Measured | undefined): void {
  const { outputs } = search;
  const ofGap = outputs.varies[gap] ? gapShareOf(item.column, outputs, -1) : undefined;
  const told = ([ofCash, ofGap] as const).map((share) => share !== undefined && isTold(share.value));
  if (!told.includes(true) || !sortIntoCells(item.column, search.cells)) return;
  const tails = tailSumsOf(search.cells, outputs);
  if (told[cash]) note(search, cash, item, { varianceShare: ofCash!, ...measureTails(tails, outputs, cash) });
  if (told[gap]) note(search, gap, item, { varianceShare: ofGap!, ...measureTails(tails, outputs, gap) });
}

/**
 * Measures the share of the gap's variance that an amount carries: its covariance with the gap over that.
 *
 * @param sign 1 for what adds to the gap, -1 for what is taken off it
 */
export function gapShareOf(column: Float64Array, outputs: Outputs, sign: 1 | -1): Measured {
  const { starts, replicates, pooled, squares } = outputs;
  const { sums, size } = poolSums(sumProducts(column, outputs.columns[gap]!, starts), replicates);
  return measureSections(replicates, (section) => {
    const place = section * pooled.size;
    const draws = pooled.sums[place]!;
    const ofGap = pooled.sums[place + 1 + gap]!;
    const variance = squares.sums[place + 1 + gap]! - (ofGap * ofGap) / draws;
    const covariance = sums[section * size + 1]! - (sums[section * size]! * ofGap) / draws;
    return variance > roundingShare * squares.sums[place + 1 + gap]! ? (sign * covariance) / variance : 0;
  });
}
