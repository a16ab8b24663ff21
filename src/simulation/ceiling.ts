import type { EstimateResult, Measured } from "../domain/estimate-result.ts";
import { type Statistic, measure } from "./measure.ts";

/** Every twentieth, from 5 % to 95 %. */
const standardRisks = Array.from({ length: 19 }, (_, step) => (step + 1) / 20);

/** Keeps r x N from falling just short of a whole number. */
const rounding = 1e-9;

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
  const resale = measure(starts, priceStatistic(gap, shareOfPrice, price, 0, risks));
  const mine = measure(starts, priceStatistic(gap, shareOfPrice, price, acceptableNetCost, risks));
  return risks.map((risk, place) => ({
    risk,
    resale: resale[place] as Measured,
    mine: mine[place] as Measured,
  }));
}

function priceStatistic(
  gap: Float64Array,
  shareOfPrice: Float64Array,
  price: number,
  acceptableNetCost: number,
  risks: readonly number[],
): Statistic {
  const bearable = gap.map((amount, draw) => {
    const factor = 1 + shareOfPrice[draw]!;
    return (amount + acceptableNetCost + price * factor) / factor;
  });
  return (start, end) => {
    const ascending = bearable.slice(start, end).sort();
    return risks.map(
      (risk) => ascending[Math.min(end - start - 1, Math.floor(risk * (end - start) + rounding))]!,
    );
  };
}
