import type { EstimateResult, Measured } from "../domain/estimate-result.ts";
import { netCostOf } from "./net-cost.ts";

/**
 * The answer in one sentence: the net cost, or the gain, at its median and at its bad tenth; without a value
 * the restoration cost.
 *
 * @param money writes an amount
 */
export function sentenceOf(result: EstimateResult, money: (figure: Measured) => string): string {
  if (result.value === undefined) {
    const { p50, p90 } = result.restoration.cash;
    return `Expect the restoration to cost about ${money(p50)}; 1 time in 10 more than ${money(p90)}.`;
  }
  const { p50, p90 } = netCostOf(result.value.gap);
  const gain = ({ value, standardError }: Measured) => money({ value: 0 - value, standardError });
  if (p50.value >= 0) {
    return `Expect it to cost you about ${money(p50)} net of what it sells for; 1 time in 10 more than ${money(p90)}.`;
  }
  const badTenth =
    p90.value > 0 ? `it costs you more than ${money(p90)} net` : `the gain is less than ${gain(p90)}`;
  return `Expect to be about ${gain(p50)} ahead once it is sold; 1 time in 10 ${badTenth}.`;
}
