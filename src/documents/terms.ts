import type { EstimateDocument } from "../domain/estimate-document.ts";
import { defaultAcceptableRisk } from "../domain/estimate-document.ts";
import type { EstimateResult, Measured } from "../domain/estimate-result.ts";
import { formatChance, percent } from "./format-chance.ts";
import { formatExact, formatFigure, formatRoundedDown } from "./honest-figure.ts";

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
  };
  return {
    verdict: [
      ...(result.value ? [onMyTerms(result.value, terms), onResaleTerms(result.value, terms)] : [noValue]),
    ],
    facts: [
      typicalsFact(result, terms),
      ...budgetFacts(result, terms),
      ...ceilingFacts(document, result, terms),
      completeFact(result, terms),
    ],
  };
}

const noValue =
  "The document gives no value for the finished machine, so neither a net cost nor a ceiling price can be said.";

type Value = NonNullable<EstimateResult["value"]>;

function onMyTerms({ regretProbability }: Value, terms: Terms): string {
  if (!terms.named) {
    return "You have named no net cost that building and keeping it is worth to you: until you do, only resale terms can judge it.";
  }
  return (
    `You named ${formatExact(terms.named, terms.decimals)} as what building and keeping it is worth to you: ` +
    `the chance that it costs more is ${formatChance(regretProbability, terms.draws)}, ${againstRisk(regretProbability, terms)}.`
  );
}

function onResaleTerms({ lossProbability }: Value, terms: Terms): string {
  const chance = formatChance(lossProbability, terms.draws);
  if (lossProbability.value > 0.5)
    return `On resale terms this loses money: the chance of a loss is ${chance}.`;
  return `On resale terms the chance of a loss is ${chance}, ${againstRisk(lossProbability, terms)}.`;
}

function againstRisk({ value }: Measured, { risk }: Terms): string {
  return `${value > risk ? "more than" : "within"} the ${percent(risk)} you accept`;
}

/** What adding up single figures would have said. */
function typicalsFact({ sumOfTypicals }: EstimateResult, { decimals }: Terms): AnswerFact {
  return {
    name: "The restoration if everything went typically",
    figure: formatExact(Math.round(sumOfTypicals * 100) / 100, sumOfTypicals < 100 ? decimals : 0),
  };
}

function budgetFacts({ budget }: EstimateResult, { draws, decimals }: Terms): AnswerFact[] {
  if (budget === undefined) return [];
  return [
    {
      name: `Chance of exceeding the budget of ${formatExact(budget.amount, decimals)}`,
      figure: formatChance(budget.overrunProbability, draws),
    },
    ...(budget.reserveForP80.value > 0
      ? [
          {
            name: "Reserve on top of the budget that holds 8 times in 10",
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
    { name: most("on your terms"), figure: write(accepted.mine) },
  ];
}

function completeFact({ completeProbability }: EstimateResult, { draws }: Terms): AnswerFact {
  return {
    name: "Chance that every part is found or made",
    figure: formatChance(completeProbability, draws),
  };
}
