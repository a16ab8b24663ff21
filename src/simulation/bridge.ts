import { DomainError } from "../numeric/domain-error.ts";
import type { Bridge } from "../domain/bridge.ts";
import type { EstimateDocument } from "../domain/estimate-document.ts";
import { mostDrawsWithLines } from "../domain/limits.ts";
import { type SimulationOptions, defaultSimulationOptions } from "../domain/simulation-options.ts";
import { type ExplainedDifference, explainDifference } from "./bridge-explain.ts";
import { cashTerms, gapTerms } from "./bridge-terms.ts";
import { simulation } from "./simulate.ts";
import type { Simulation } from "./simulation.ts";

/** How a bridge is to be computed. */
export type BridgeOptions = Pick<SimulationOptions, "seed" | "sampling"> & { readonly draws?: number };

const defaultDraws = 10_000;

const rule =
  "Both documents are drawn with the same random streams, so that what they share draws the same. From the first to the second the terms change one at a time, in the order of kind and id and in the reverse order; a term makes what it changes, on average of both orders. A term that is the same in every draw makes nothing.";

/**
 * Explains the difference between two estimates line by line, on common draws. The terms add up to the difference in the
 * mean and in the percentiles (to the rounding of the arithmetic), and change their sign when the documents change places.
 *
 * @param first a document that has passed every rule
 * @param second another, in the same currency
 * @param options draws, at most as many as keep every line; seed and sampling
 * @throws {DomainError} `bridge-currencies-differ`; `bridge-needs-lines` when too many draws are asked for
 */
export function bridge(
  first: EstimateDocument,
  second: EstimateDocument,
  options: BridgeOptions = {},
): Bridge {
  const { draws = defaultDraws, seed = defaultSimulationOptions.seed } = options;
  if (first.currency !== second.currency) {
    throw new DomainError(
      "bridge-currencies-differ",
      `no bridge leads from ${first.currency} to ${second.currency}`,
    );
  }
  if (draws > mostDrawsWithLines) {
    throw new DomainError(
      "bridge-needs-lines",
      `a bridge takes at most ${mostDrawsWithLines} draws, not ${draws}`,
    );
  }
  const isValued = first.value !== undefined && second.value !== undefined;
  const schedule = isValued && (first.carrying ?? second.carrying) !== undefined;
  const [one, other] = [first, second].map((document) =>
    simulation(document, { ...options, draws }, { schedule }),
  ) as [Simulation, Simulation];
  return {
    rule,
    draws,
    seed,
    cash: cashOf(explainDifference(cashTerms(one, other), one.starts, [0.5, 0.8])),
    ...(isValued && { gap: gapOf(explainDifference(gapTerms(one, other), one.starts, [0.2, 0.5])) }),
  };
}

function cashOf({ mean, quantiles: [p50, p80], terms }: ExplainedDifference): Bridge["cash"] {
  return {
    mean,
    p50: p50!,
    p80: p80!,
    terms: terms.map(({ identity, mean: ofMean, quantiles }) => ({
      ...identity,
      mean: ofMean,
      p50: quantiles[0]!,
      p80: quantiles[1]!,
    })),
  };
}

/** The bad end of the gap is its low one. */
function gapOf({ mean, quantiles: [p20, p50], terms }: ExplainedDifference): NonNullable<Bridge["gap"]> {
  return {
    mean,
    p20: p20!,
    p50: p50!,
    terms: terms.map(({ identity, mean: ofMean, quantiles }) => ({
      ...identity,
      mean: ofMean,
      p20: quantiles[0]!,
      p50: quantiles[1]!,
    })),
  };
}
