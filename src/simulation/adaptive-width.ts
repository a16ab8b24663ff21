import type { Measured } from "../domain/estimate-result.ts";
import type { Adaptive } from "../domain/simulation-options.ts";
import { chanceBeyond, rangeOf, studentPoint } from "./measure.ts";
import type { Simulation } from "./simulation.ts";

/**
 * The widest 95 % interval among the figures an adaptive simulation is asked for, in tolerances: mean, P10, P50, P80 and
 * P90 of the restoration cash against a share of its median, the chances of overrun, loss and regret against theirs.
 *
 * @returns half-width over tolerance; at most 1 when every figure is exact enough
 */
export function widthOverTolerance(simulation: Simulation, { tolerance }: Adaptive): number {
  const { program, money, starts } = simulation;
  const { budget, acceptableNetCost = 0 } = program.document;
  const cash = rangeOf(money.cash, starts);
  const chances: Measured[] = [];
  if (budget !== undefined) {
    const against = budget.includesPurchase ? money.allIn : money.cash;
    chances.push(chanceBeyond(against, starts, "above", budget.amount, program.hasRareEvents));
  }
  if (money.gap !== undefined) {
    for (const limit of new Set([0, -acceptableNetCost])) {
      chances.push(chanceBeyond(money.gap, starts, "below", limit, program.hasRareEvents));
    }
  }
  const point = studentPoint(starts.length - 1);
  const amounts = tolerance.shareOfMedian * cash.p50.value;
  const widths = (figures: readonly Measured[], allowed: number) =>
    figures.map(({ standardError }) => (standardError === 0 ? 0 : (point * standardError) / allowed));
  return Math.max(...widths(Object.values(cash), amounts), ...widths(chances, tolerance.probability));
}
