import type { EstimateDocument } from "../domain/estimate-document.ts";
import { defaultAcceptableRisk } from "../domain/estimate-document.ts";
import type { EstimateResult, Measured } from "../domain/estimate-result.ts";
import { formatChance, percent } from "./format-chance.ts";
import { formatExact, formatFigure, formatRoundedDown } from "./honest-figure.ts";
import { isCertain } from "./is-certain.ts";

/** A single figure under its name. */
export interface AnswerFact {
  readonly name: string;
  readonly figure: string;
}

interface Terms {
  readonly draws: number;
  readonly decimals: number;
  /** Chance of regret the reader accepts. */
  readonly risk: number;
  /** Net cost the reader named; undefined: none. */
  readonly named: number | undefined;
  /** A shop reads of what its customer named, not of what it did itself. */
  readonly isShop: boolean;
}

/** What the result means on the reader's terms and on resale terms. */
export function termsOf(
  document: EstimateDocument,
  result: EstimateResult,
  decimals: number,
): { verdict: readonly string[]; facts: readonly AnswerFact[] } {
  const terms = {
    draws: result.engine.draws,
    decimals,
    risk: document.acceptableRisk ?? defaultAcceptableRisk,
    named: document.acceptableNetCost,
    isShop: document.shop !== undefined,
  };
  return {
    verdict: verdictOf(document, result, terms),
    facts: [
      typicalsFact(document, result, terms),
      ...budgetFacts(document, result, terms),
      ...(document.spent ? sunkFacts(document, terms) : ceilingFacts(document, result, terms)),
      completeFact(result, terms),
    ],
  };
}

type Value = NonNullable<EstimateResult["value"]>;

function verdictOf({ shop, spent }: EstimateDocument, { value }: EstimateResult, terms: Terms): string[] {
  if (value) return [onMyTerms(value, terms), onResaleTerms(value, terms)];
  if (shop) return ["That is the shop's own cost, before its charge rate and its mark-up on parts."];
  const unsaid = spent ? "no net cost can be said" : "neither a net cost nor a ceiling price can be said";
  return [`The document gives no value for the finished machine, so ${unsaid}.`];
}

function onMyTerms({ regretProbability }: Value, terms: Terms): string {
  if (!terms.named) {
    if (terms.isShop) {
      return "The document names no net cost that building and keeping it is worth: until it does, only resale terms can judge it.";
    }
    return "You have named no net cost that building and keeping it is worth to you: until you do, only resale terms can judge it.";
  }
  const named = formatExact(terms.named, terms.decimals);
  const worth = "what building and keeping it is worth";
  return (
    (terms.isShop ? `The document names ${named} as ${worth}: ` : `You named ${named} as ${worth} to you: `) +
    `the chance that it costs more is ${formatChance(regretProbability, terms.draws)}, ${againstRisk(regretProbability, terms)}.`
  );
}

function onResaleTerms({ lossProbability }: Value, terms: Terms): string {
  const chance = formatChance(lossProbability, terms.draws);
  if (lossProbability.value > 0.5) {
    const loses = lossProbability.value < 0.9 ? "probably loses" : "loses";
    return `On resale terms this ${loses} money: the chance of a loss is ${chance}.`;
  }
  return `On resale terms the chance of a loss is ${chance}, ${againstRisk(lossProbability, terms)}.`;
}

function againstRisk({ value }: Measured, { risk, isShop }: Terms): string {
  return `${value > risk ? "more than" : "within"} the ${percent(risk)} ${isShop ? "accepted" : "you accept"}`;
}

/** What adding up single figures would have said, as finely as the exact figures beside it are written. */
function typicalsFact(document: EstimateDocument, result: EstimateResult, { decimals }: Terms): AnswerFact {
  const { sumOfTypicals, restoration } = result;
  const { acquisition, budget, acceptableNetCost: named } = document;
  const beside = [acquisition?.price, budget?.amount, named, sunkOf(document)];
  const isFine = isCertain(restoration.cash) || beside.some((amount) => !Number.isInteger(amount ?? 0));
  return {
    name: "The restoration if everything went typically",
    figure: formatExact(sumOfTypicals, isFine ? decimals : 0),
  };
}

/** What is gone or owed whatever is decided now. */
function sunkOf({ spent }: EstimateDocument): number {
  return (spent?.cash ?? 0) + (spent?.firmOrders ?? 0);
}

/** Who has spent on it owns it: no price is asked any more. */
function sunkFacts(document: EstimateDocument, { decimals }: Terms): AnswerFact[] {
  const price = document.acquisition?.price;
  return [
    ...(price === undefined ? [] : [{ name: "Price paid", figure: formatExact(price, decimals) }]),
    { name: "Spent or owed already", figure: formatExact(sunkOf(document), decimals) },
  ];
}

function budgetFacts(
  document: EstimateDocument,
  { budget }: EstimateResult,
  { draws, decimals }: Terms,
): AnswerFact[] {
  if (budget === undefined) return [];
  const purchase = document.budget?.includesPurchase ? ", purchase included" : "";
  return [
    {
      name: `Chance of exceeding the budget of ${formatExact(budget.amount, decimals)}${purchase}`,
      figure: formatChance(budget.overrunProbability, draws),
    },
    ...(budget.reserveForP80.value > 0
      ? [
          {
            name: "Reserve to add to the budget so that it holds 8 times in 10",
            figure: formatFigure(budget.reserveForP80, decimals),
          },
        ]
      : []),
  ];
}

function ceilingFacts(document: EstimateDocument, { ceiling }: EstimateResult, terms: Terms): AnswerFact[] {
  const accepted = ceiling?.find(({ risk }) => Math.abs(risk - terms.risk) < 1e-9);
  if (accepted === undefined) return [];
  const price = document.acquisition?.price;
  const write = (limit: Measured) =>
    limit.value < 0 ? "at no price on these terms" : formatRoundedDown(limit, terms.decimals);
  const most = (onTerms: string) =>
    `Most to pay for it ${onTerms}, accepting a risk of ${percent(terms.risk)}`;
  return [
    ...(price === undefined ? [] : [{ name: "Price asked", figure: formatExact(price, terms.decimals) }]),
    { name: most("on resale terms"), figure: write(accepted.resale) },
    ...(terms.named
      ? [{ name: most(terms.isShop ? "on the terms named" : "on your terms"), figure: write(accepted.mine) }]
      : []),
  ];
}

function completeFact({ completeProbability }: EstimateResult, { draws }: Terms): AnswerFact {
  return {
    name: "Chance that every part is found or made",
    figure: formatChance(completeProbability, draws),
  };
}
