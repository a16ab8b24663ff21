import type { EstimateDocument } from "../../../src/domain/estimate-document.ts";
import type { Loadings } from "../../../src/domain/loadings.ts";
import type { Part } from "../../../src/domain/part.ts";
import { bands } from "../../../src/domain/vocabulary.ts";
import type { Band } from "../../../src/domain/vocabulary.ts";
import { lowerTail, upperTail } from "./plain-normal.ts";
import type { Chance, Source } from "./plain-types.ts";

/** The loadings of what names none: `loading` on the driver of that id if the document declares one. */
export function loadingOn(document: EstimateDocument, driver: string, loading: number): Loadings {
  return document.drivers.some((declared) => declared.id === driver) ? { [driver]: loading } : {};
}

/** The first index whose running sum of probabilities reaches Phi(z), never one of probability 0. */
function cut(z: number, probabilities: number[]): number {
  const reach = lowerTail(z);
  let sum = 0;
  let likeliestSoFar = -1;
  for (const [index, probability] of probabilities.entries()) {
    if (probability === 0) continue;
    sum += probability;
    likeliestSoFar = index;
    if (reach <= sum) return index;
  }
  return likeliestSoFar;
}

const oddsOf = (odds: Partial<Record<Band, number>>) => bands.map((band) => odds[band] ?? 0);

/** Chance as one draw's scores have it. */
export function drawnChance(document: EstimateDocument, source: Source): Chance {
  const mixed = (key: string, loadings: Loadings) => {
    let sum = 0;
    let squares = 0;
    for (const [driver, loading] of Object.entries(loadings)) {
      sum += loading * source.score(`drivers/${driver}|level`);
      squares += loading * loading;
    }
    return sum + Math.sqrt(Math.max(0, 1 - squares)) * source.score(key);
  };
  const effect: Chance["effect"] = (key, uncertain, loadings) =>
    uncertain === undefined ? 0 : source.quantile(uncertain, mixed(key, loadings));
  return {
    effect,
    amount: (key, uncertain, loadings) => Math.max(0, effect(key, uncertain, loadings)),
    happens: (key, probability, loadings) => upperTail(mixed(key, loadings)) < probability,
    band: ({ id, condition }: Part) => {
      if ("band" in condition) return condition.band;
      const z = mixed(`parts/${id}|band`, condition.drivers ?? loadingOn(document, "storage", 0.6));
      return bands[cut(z, oddsOf(condition.odds))]!;
    },
    outcome: (key, outcomes) => {
      const probabilities = outcomes.map((outcome) => outcome.probability);
      return outcomes[cut(source.score(key), probabilities)];
    },
    waitMonths: (key, findsPerMonth) =>
      Math.max(0, source.quantile({ kind: "exponential", mean: 1 / findsPerMonth }, source.score(key))),
  };
}

/** Chance as the sum of typicals has it: medians, the likeliest band, nothing fails, nothing open comes to light. */
export function typicalChance(quantile: Source["quantile"]): Chance {
  const effect: Chance["effect"] = (_key, uncertain) =>
    uncertain === undefined ? 0 : quantile(uncertain, 0);
  return {
    effect,
    amount: (key, uncertain, loadings) => Math.max(0, effect(key, uncertain, loadings)),
    happens: () => false,
    band: ({ condition }) => {
      if ("band" in condition) return condition.band;
      const odds = oddsOf(condition.odds);
      return bands[odds.indexOf(Math.max(...odds))]!;
    },
    outcome: (_key, outcomes) => {
      const possible = outcomes.filter(({ probability }) => probability > 0);
      const byResult = (result: string) => possible.find((outcome) => outcome.result === result);
      return byResult("right") ?? byResult("rework") ?? byResult("useless");
    },
    waitMonths: () => 0,
  };
}
