/**
 * Mean of a quantity over one tail of the draws when they are ordered by another: all draws beyond a border, and those at
 * the border, tied, with what fraction of each the tail still wants.
 *
 *     (sum beyond + weight x sum at the border + surplus x mean near the border) / wanted,
 *     surplus = wanted - draws beyond - weight x draws at the border
 *
 * On all draws the weight leaves no surplus. Of a part of them a border found on all leaves a little too many or too few:
 * those are taken off again, or added, at the mean near the border, which is exact to first order.
 *
 * @param wanted draws in the tail, > 0, not always whole
 * @param beyond draws beyond the border
 * @param sumBeyond of the quantity there
 * @param at draws at the border
 * @param sumAt of the quantity there
 * @param weight of each of those, in [0, 1]
 * @param nearMean of the quantity near the border
 */
export function tailMean(
  wanted: number,
  beyond: number,
  sumBeyond: number,
  at: number,
  sumAt: number,
  weight: number,
  nearMean: number,
): number {
  const surplus = wanted - beyond - weight * at;
  return (sumBeyond + weight * sumAt + surplus * nearMean) / wanted;
}
