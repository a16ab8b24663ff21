import { valuesOfRanks } from "./values-of-ranks.ts";

/**
 * Quantiles of a stretch of values, Hyndman & Fan type 7, without sorting it.
 *
 * @param values in any order; not changed
 * @param start first index
 * @param end one past the last index, > start
 * @param probabilities in [0, 1], any order
 * @returns quantiles in the order of `probabilities`, exactly those of the sorted stretch
 * @see Hyndman & Fan 1996, "Sample quantiles in statistical packages"
 */
export function quantilesOf(
  values: Float64Array,
  start: number,
  end: number,
  probabilities: readonly number[],
): number[] {
  const last = end - start - 1;
  const places = probabilities.map((probability) => last * probability);
  const lower = places.map(Math.floor);
  const upper = lower.map((rank) => Math.min(last, rank + 1));
  const ranks = [...new Set([...lower, ...upper])].sort((a, b) => a - b);
  const found = valuesOfRanks(values.subarray(start, end), ranks);
  return places.map((place, index) => {
    const low = found[ranks.indexOf(lower[index]!)]!;
    const high = found[ranks.indexOf(upper[index]!)]!;
    return low + (high - low) * (place - lower[index]!);
  });
}
