import type { EstimateResult } from "../domain/estimate-result.ts";
import type { QuantilePlace } from "../numeric/quantile-estimates.ts";
import { quantilesMeasured } from "./measure.ts";

/** Every twentieth, from 5 % to 95 %. */
const standardRisks = Array.from({ length: 19 }, (_, step) => (step + 1) / 20);

/** The floor(r N) + 1-th smallest; the small number keeps r N from falling just short of a whole one. */
const atRisk: QuantilePlace = (risk, count) => Math.min(count - 1, Math.floor(risk * count + 1e-9));

/**
 * The most that should be paid, by the risk of regret accepted: the price at which the gap is below the limit in no more
 * than that share of the draws, shares of the price counted.
 *
 * @param gap proceeds less all-in, by draw, in currency units
 * @param shareOfPrice sum of the shares of the price, by draw
 * @param price the price already in the gap
 * @param acceptableNetCost what building and keeping it is worth, for my terms
 * @param acceptableRisk the reader's own risk, listed with the standard ones
 * @param starts where each replicate begins
 */
export function ceilingOf(
  gap: Float64Array,
  shareOfPrice: Float64Array,
  price: number,
  acceptableNetCost: number,
  acceptableRisk: number,
  starts: Int32Array,
): NonNullable<EstimateResult["ceiling"]> {
  const risks = [...new Set([...standardRisks, acceptableRisk])].sort((a, b) => a - b);
  const prices = (netCost: number) =>
    quantilesMeasured(bearablePrices(gap, shareOfPrice, price, netCost), starts, risks, atRisk);
  const resale = prices(0);
  const mine = prices(acceptableNetCost);
  return risks.map((risk, place) => ({
    risk,
    resale: resale[place]!,
    mine: mine[place]!,
  }));
}

/** The price that would leave a draw exactly at the limit, by draw. */
function bearablePrices(
  gap: Float64Array,
  shareOfPrice: Float64Array,
  price: number,
  acceptableNetCost: number,
): Float64Array {
  return gap.map((amount, draw) => {
    const factor = 1 + shareOfPrice[draw]!;
    return (amount + acceptableNetCost + price * factor) / factor;
  });
}
