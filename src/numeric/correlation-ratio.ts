import { roundingShare } from "./rounding-share.ts";

/**
 * The share of a quantity's variance that lies between groups, freed of what chance alone would put there:
 *
 *     epsilon^2 = (B - (G - 1) W) / T
 *
 * with T the sum of squares about the mean, B that of the groups' means about the mean, W = (T - B) / (n - G) and G the
 * number of groups that hold anything. Without the correction it would be the correlation ratio eta^2 = B / T, which G
 * groups of no meaning raise to (G - 1) / (n - 1) on average.
 *
 * @param sums group by group, `stride` places each: first how many the group holds
 * @param start of the first group
 * @param end one past the last group
 * @param stride places a group takes
 * @param column place of the quantity's sum in a group, taken about a centre near its mean
 * @param squares sum of the quantity's squares about the same centre
 * @returns in (-G / n, 1], below 0 only by chance; 0 when nothing varies or no group holds two
 * @see Kelley 1935, "An unbiased correlation ratio measure"
 */
export function correlationRatio(
  sums: Float64Array,
  start: number,
  end: number,
  stride: number,
  column: number,
  squares: number,
): number {
  let count = 0;
  let sum = 0;
  let between = 0;
  let groups = 0;
  for (let group = start; group < end; group += stride) {
    const held = sums[group]!;
    if (held === 0) continue;
    const ofGroup = sums[group + column]!;
    groups += 1;
    count += held;
    sum += ofGroup;
    between += (ofGroup * ofGroup) / held;
  }
  if (count <= groups) return 0;
  const aboutMean = (sum * sum) / count;
  const total = squares - aboutMean;
  if (!(total > roundingShare * squares)) return 0;
  const explained = between - aboutMean;
  const within = (total - explained) / (count - groups);
  // Where the groups leave nothing open, rounding may have left less.
  return Math.min(1, (explained - (groups - 1) * within) / total);
}
