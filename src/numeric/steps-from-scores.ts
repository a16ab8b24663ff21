/**
 * Looks scores up in a step function: a step's value holds up to and including its threshold, so that it is the smallest
 * value whose cumulative chance reaches Phi(score).
 *
 * @param thresholds upper end, in scores, of each step but the last, ascending
 * @param values of the steps, one more than thresholds
 * @param scores `count` scores
 * @param out receives `count` values; may be `scores`
 * @param count how many
 */
export function stepsFromScores(
  thresholds: Float64Array,
  values: Float64Array,
  scores: Float64Array,
  out: Float64Array,
  count: number,
): void {
  if (thresholds.length > mostCounted) return searchSteps(thresholds, values, scores, out, count);
  for (let draw = 0; draw < count; draw++) {
    const score = scores[draw]!;
    let step = 0;
    for (let border = 0; border < thresholds.length; border++) step += score > thresholds[border]! ? 1 : 0;
    out[draw] = values[step]!;
  }
}

/** Up to so many thresholds, passing each is counted; beyond, they are searched by halves. */
const mostCounted = 8;

function searchSteps(
  thresholds: Float64Array,
  values: Float64Array,
  scores: Float64Array,
  out: Float64Array,
  count: number,
): void {
  for (let draw = 0; draw < count; draw++) {
    const score = scores[draw]!;
    let step = 0;
    let end = thresholds.length;
    while (step < end) {
      const middle = (step + end) >> 1;
      if (score > thresholds[middle]!) step = middle + 1;
      else end = middle;
    }
    out[draw] = values[step]!;
  }
}
