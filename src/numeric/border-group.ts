/** Share of the draws that is near a border, on each side of it and at it, where the draws are not tied there. */
const nearShare = 0.01;

/** One border of the tails: the group that it goes through, and the groups near it. */
export interface Border {
  /** First of the groups near the border. */
  readonly first: number;
  readonly at: number;
  /** Last of the groups near the border. */
  readonly last: number;
}

/**
 * The group in which one end of the draws, so many of them, ends: the first at which the groups from that end on hold at
 * least as many.
 *
 * @param tally draws by group, groups in ascending order
 * @param wanted draws, > 0, at most all
 * @param from the low end or the high end
 */
export function borderGroup(tally: ArrayLike<number>, wanted: number, from: "low" | "high"): number {
  const last = tally.length - 1;
  // Sums of whole numbers are exact; a share of the draws may come out a little above a whole number.
  const enough = wanted - 1e-9;
  let held = 0;
  for (let step = 0; step < last; step++) {
    const group = from === "low" ? step : last - step;
    held += tally[group]!;
    if (held >= enough) return group;
  }
  return from === "low" ? last : 0;
}

/**
 * A border with the groups near it: on either side until they hold a hundredth of the draws; none that hold twice that
 * by themselves, for what is tied there is a place of its own.
 *
 * @param tally draws by group, groups in ascending order
 * @param draws in all
 * @param at the group the border goes through
 */
export function borderAround(tally: ArrayLike<number>, draws: number, at: number): Border {
  const enough = draws * nearShare;
  if (tally[at]! >= 2 * enough) return { first: at, at, last: at };
  const reach = (step: 1 | -1): number => {
    let held = 0;
    let group = at;
    while (held < enough && (tally[group + step] ?? Infinity) < 2 * enough) {
      group += step;
      held += tally[group]!;
    }
    return group;
  };
  return { first: reach(-1), at, last: reach(1) };
}
