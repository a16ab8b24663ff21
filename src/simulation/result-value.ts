import { defaultAcceptableRisk } from "../domain/estimate-document.ts";
import type { EstimateResult, Measured } from "../domain/estimate-result.ts";
import { ceilingOf } from "./ceiling.ts";
import { chanceBeyond, quantilesMeasured, summaryOf } from "./measure.ts";
import type { Simulation } from "./simulation.ts";

/** What is said of the value, the gap and the ceiling price; nothing when the document gives no value. */
export function valueResultOf(simulation: Simulation): Pick<EstimateResult, "value" | "ceiling"> {
  const { program, outcomes, money, starts } = simulation;
  const { gap } = money;
  if (gap === undefined) return {};
  const { document, ownHourValue } = program;
  const rareEvents = program.hasRareEvents;
  const acceptableNetCost = document.acceptableNetCost ?? 0;
  const risk = document.acceptableRisk ?? defaultAcceptableRisk;
  const gapWithOwnHours = gap.map((amount, draw) => amount - outcomes.ownHours[draw]! * ownHourValue);
  return {
    value: {
      finished: summaryOf(outcomes.finished, starts),
      proceeds: summaryOf(outcomes.proceeds, starts),
      gap: summaryOf(gap, starts),
      gapWithOwnHours: summaryOf(gapWithOwnHours, starts),
      lossProbability: chanceBeyond(gap, starts, "below", 0, rareEvents),
      regretProbability: chanceBeyond(gap, starts, "below", -acceptableNetCost, rareEvents),
      ...recoveryOf(simulation),
    },
    ceiling: ceilingOf(gap, outcomes.shareOfPrice, program.price, acceptableNetCost, risk, starts),
  };
}

/** The share of the restoration cash that comes back after the purchase; absent when a draw costs nothing. */
function recoveryOf({ outcomes, money, starts }: Simulation) {
  if (money.cash.includes(0)) return {};
  const { proceeds, purchase } = outcomes;
  const recovered = money.cash.map((cash, draw) => (proceeds[draw]! - purchase[draw]!) / cash);
  const [p10, p50, p90] = quantilesMeasured(recovered, starts, [0.1, 0.5, 0.9]) as [
    Measured,
    Measured,
    Measured,
  ];
  return { recovery: { p10, p50, p90 } };
}
