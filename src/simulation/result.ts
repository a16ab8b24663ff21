import { quantilesOf } from "../numeric/quantiles-of.ts";
import { digestOf } from "../domain/digest.ts";
import type { EstimateResult } from "../domain/estimate-result.ts";
import type { Simulation } from "./simulation.ts";
import { criticalOf } from "./critical-shares.ts";
import { firmUpFirstOf } from "./firm-up-first.ts";
import { sensitivityOf } from "./sensitivity.ts";
import { detailOf } from "./result-detail.ts";
import { engineVersion } from "./engine-version.ts";
import { chanceBeyond, meanMeasured, rangeOf, summaryOf } from "./measure.ts";
import { sumOfTypicals } from "./typicals.ts";
import { valueResultOf } from "./result-value.ts";

/** Some fields of the result. */
export type ResultPart = Partial<EstimateResult>;

/** What measures the parts of the result, each on its own, so that threads can share the work. */
export const resultParts: readonly ((simulation: Simulation) => ResultPart)[] = [
  totalsOf,
  (simulation) => ({ ...budgetResultOf(simulation), ...valueResultOf(simulation) }),
  detailOf,
  (simulation) => ({ sensitivity: sensitivityOf(simulation) }),
  (simulation) => ({ firmUpFirst: firmUpFirstOf(simulation), critical: criticalOf(simulation) }),
  (simulation) => ({ curve: curveOf(simulation) }),
];

/**
 * Puts the result together.
 *
 * @param parts of each of `resultParts`, in order
 */
export function resultFrom(parts: readonly ResultPart[]): EstimateResult {
  const result = Object.assign({}, ...parts) as Omit<EstimateResult, "resultDigest">;
  return { ...result, resultDigest: digestOf(result) };
}

/**
 * Turns the outcomes of all draws into the result.
 *
 * @param simulation the compiled document, what was asked for, and the outcomes
 */
export function resultOf(simulation: Simulation): EstimateResult {
  return resultFrom(resultParts.map((measure) => measure(simulation)));
}

function totalsOf(simulation: Simulation): ResultPart {
  const { program, options, outcomes, starts, money } = simulation;
  return {
    engine: {
      version: engineVersion,
      seed: options.seed,
      draws: outcomes.draws,
      sampling: options.sampling,
      replicates: starts.length - 1,
      ...(options.adaptive && { adaptive: options.adaptive }),
      stopped: simulation.stopped,
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
    weeks: summaryOf(outcomes.weeks, starts),
    ownHours: summaryOf(outcomes.ownHours, starts),
    shopHours: summaryOf(outcomes.shopHours, starts),
  };
}

/** The budget stands against all-in when it includes the purchase, else against the restoration cash. */
function budgetResultOf({ program, money, starts }: Simulation): Pick<EstimateResult, "budget"> {
  const { budget } = program.document;
  if (budget === undefined) return {};
  const { amount, includesPurchase } = budget;
  const against = includesPurchase ? money.allIn : money.cash;
  const overrun = against.map((cash) => Math.max(0, cash - amount));
  const { value, standardError } = rangeOf(against, starts).p80;
  return {
    budget: {
      amount,
      overrunProbability: chanceBeyond(against, starts, "above", amount, program.hasRareEvents),
      expectedOverrun: meanMeasured(overrun, starts),
      reserveForP80: { value: value - amount, standardError },
    },
  };
}

const percents = Array.from({ length: 99 }, (_, step) => (step + 1) / 100);

function curveOf({ money, outcomes }: Simulation): EstimateResult["curve"] {
  const restoration = quantilesOf(money.cash, 0, outcomes.draws, percents);
  const value = money.gap && quantilesOf(outcomes.finished, 0, outcomes.draws, percents);
  const gap = money.gap && quantilesOf(money.gap, 0, outcomes.draws, percents);
  return percents.map((probability, place) => ({
    probability,
    restoration: restoration[place]!,
    ...(value && { value: value[place]! }),
    ...(gap && { gap: gap[place]! }),
  }));
}
