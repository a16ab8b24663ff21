import type { Measured } from "../domain/estimate-result.ts";
import type { Sensitivity } from "../domain/sensitivity.ts";
import { varianceSharesOf } from "./measure.ts";
import { gapShareOf, searchAmounts } from "./sensitivity-amounts.ts";
import { searchContinuous, searchLevels } from "./sensitivity-causes.ts";
import { beginSearch, strongestFirst } from "./sensitivity-search.ts";
import { driverItems, levelItems, valueItem, weeksItem } from "./sensitivity-items.ts";
import { outputNames, outputsOf } from "./sensitivity-outputs.ts";
import type { Simulation } from "./simulation.ts";

/**
 * Tells what moves the restoration cash, the gap and the weeks, strongest first.
 *
 * Amounts carry shares of variance, which add up to 1. Causes (drivers, conditions, findings, failures, the value) carry the
 * correlation ratio and the rank correlation, which overlap. Each carries the answer's mean where it is lowest and highest.
 * What never varies is left out, and so is what explains less than a ten-thousandth of the answer's variance, or no more of
 * it than chance might.
 *
 * @param simulation which kept every line; otherwise the lists are empty
 * @param lineShares shares of the restoration cash's variance by line, where they are known already
 */
export function sensitivityOf(
  simulation: Simulation,
  lineShares: readonly Measured[] = cashSharesOf(simulation),
): Sensitivity {
  const isValued = simulation.money.gap !== undefined;
  if (!simulation.withLines) return { cash: [], ...(isValued && { gap: [] }), weeks: [] };
  const search = beginSearch(outputsOf(simulation));
  const everyOutput = outputNames.map((_, output) => output);
  const gapOnly = [outputNames.indexOf("gap")];
  searchAmounts(search, simulation, lineShares);
  if (isValued) {
    const ofProceeds = gapShareOf(simulation.outcomes.proceeds, search.outputs, 1);
    searchContinuous(search, valueItem(simulation), gapOnly, ofProceeds);
    for (const item of weeksItem(simulation)) searchContinuous(search, item, gapOnly);
  }
  for (const item of driverItems(simulation)) searchContinuous(search, item, everyOutput);
  for (const item of levelItems(simulation)) searchLevels(search, item);
  const [cash, gap, weeks] = outputNames.map((_, output) => strongestFirst(search, output));
  return { cash: cash!, ...(isValued && { gap: gap! }), weeks: weeks! };
}

function cashSharesOf({ outcomes, starts }: Simulation): Measured[] {
  return varianceSharesOf(outcomes.lines, outcomes.toGo, starts);
}
