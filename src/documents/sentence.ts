import type { EstimateDocument } from "../domain/estimate-document.ts";
import type { EstimateResult, Measured, Summary } from "../domain/estimate-result.ts";
import { isCertain } from "./is-certain.ts";
import { netCostOf } from "./net-cost.ts";

type Money = (figure: Measured) => string;

/**
 * The answer in one sentence: the net cost, or the gain, at its median and at its bad tenth; without a value
 * the restoration cost. What never varies is said as such.
 *
 * @param money writes an amount
 */
export function sentenceOf({ shop }: EstimateDocument, result: EstimateResult, money: Money): string {
  const { value, restoration, weeks, ownHours, completeProbability } = result;
  const nothingVaries = [weeks, ownHours].every(isCertain) && completeProbability.standardError === 0;
  const sure = nothingVaries
    ? "nothing in the document is uncertain"
    : "nothing that bears on it is uncertain";
  if (value === undefined) {
    const { p50, p90 } = restoration.cash;
    if (isCertain(restoration.cash)) return `The restoration costs ${money(p50)}: ${sure}.`;
    return `Expect the restoration to cost about ${money(p50)}; ${badTenthOfCost(p50, p90, money)}.`;
  }
  const you = shop ? "" : " you";
  const { p50, p90 } = netCostOf(value.gap);
  if (p50.value < 0) return gainSentence(value.gap, you, sure, money);
  if (isCertain(value.gap)) return `It costs${you} ${money(p50)} net of what it sells for: ${sure}.`;
  return `Expect it to cost${you} about ${money(p50)} net of what it sells for; ${badTenthOfCost(p50, p90, money)}.`;
}

/** Where the median is the bad tenth as well, more than that happens more rarely than 1 time in 10. */
function badTenthOfCost(p50: Measured, p90: Measured, money: Money): string {
  return p90.value > p50.value
    ? `1 time in 10 more than ${money(p90)}`
    : "less than 1 time in 10 more than that";
}

function gainSentence(gap: Summary, you: string, sure: string, money: Money): string {
  const { p10, p50 } = gap;
  const ahead = `about ${money(p50)} ahead once it is sold`;
  if (isCertain(gap)) return `The sale brings ${money(p50)} more than it costs${you}: ${sure}.`;
  if (p10.value >= p50.value)
    return `Expect to be ${ahead}; less than 1 time in 10 the gain is less than that.`;
  const loss = money({ ...p10, value: 0 - p10.value });
  const badTenth =
    p10.value < 0 ? `it costs${you} more than ${loss} net` : `the gain is less than ${money(p10)}`;
  return `Expect to be ${ahead}; 1 time in 10 ${badTenth}.`;
}
