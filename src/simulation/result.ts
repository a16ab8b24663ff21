import { quantileSorted } from "../numeric/quantile-sorted.ts";
import { meanOf } from "../numeric/mean-of.ts";
import { digestOf } from "../domain/digest.ts";
import type { EstimateResult } from "../domain/estimate-result.ts";
import type { Simulation } from "./simulation.ts";
import { detailOf } from "./result-detail.ts";
import { engineVersion } from "./engine-version.ts";
import { chanceBeyond, measure, rangeOf, summaryOf } from "./measure.ts";
import { hasRareEvents } from "./rare-events.ts";
import { sumOfTypicals } from "./typicals.ts";
import { valueResultOf } from "./result-value.ts";

/**
 * Turns the outcomes of all draws into the result.
 *
 * @param simulation the compiled document, what was asked for, and the outcomes
 */
export function resultOf(simulation: Simulation): EstimateResult {
  const { program, options, outcomes, starts, money } = simulation;
  const result: Omit<EstimateResult, "resultDigest"> = {
    engine: {
      version: engineVersion,
      seed: options.seed,
      draws: options.draws,
      sampling: options.sampling,
      stopped: "all draws asked for were made",
      detail: simulation.withLines ? "full" : "totals",
    },
    documentDigest: digestOf(program.document),
    sumOfTypicals: sumOfTypicals(program),
    restoration: {
      cash: summaryOf(money.cash, starts),
      withOwnHours: summaryOf(money.withOwnHours, starts),
      toGo: summaryOf(outcomes.toGo, starts),
    },
    carrying: summaryOf(outcomes.carrying, starts),
    allIn: summaryOf(money.allIn, starts),
    ...budgetResultOf(simulation),
    ...valueResultOf(simulation),
    weeks: summaryOf(outcomes.weeks, starts),
    ownHours: summaryOf(outcomes.ownHours, starts),
    shopHours: summaryOf(outcomes.shopHours, starts),
    ...detailOf(simulation),
    curve: curveOf(simulation),
  };
  return { ...result, resultDigest: digestOf(result) };
}

/** The budget stands against all-in when it includes the purchase, else against the restoration cash. */
function budgetResultOf({ program, money, starts }: Simulation): Pick<EstimateResult, "budget"> {
  const { budget } = program.document;
  if (budget === undefined) return {};
  const { amount, includesPurchase } = budget;
  const against = includesPurchase ? money.allIn : money.cash;
  const overrun = against.map((cash) => Math.max(0, cash - amount));
  const [expectedOverrun] = measure(starts, (start, end) => [meanOf(overrun, start, end)]);
  const { value, standardError } = rangeOf(against, starts).p80;
  return {
    budget: {
      amount,
      overrunProbability: chanceBeyond(against, starts, "above", amount, hasRareEvents(program)),
      expectedOverrun: expectedOverrun!,
      reserveForP80: { value: value - amount, standardError },
    },
  };
}

function curveOf({ money, outcomes }: Simulation): EstimateResult["curve"] {
  const restoration = money.cash.slice().sort();
  const value = money.gap && outcomes.finished.slice().sort();
  const gap = money.gap?.slice().sort();
  return Array.from({ length: 99 }, (_, step) => {
    const probability = (step + 1) / 100;
    return {
      probability,
      restoration: quantileSorted(restoration, probability),
      ...(value && { value: quantileSorted(value, probability) }),
      ...(gap && { gap: quantileSorted(gap, probability) }),
    };
  });
}
