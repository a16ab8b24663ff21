import { normalQuantile } from "./normal-quantile.ts";

/**
 * Quantile function of a distribution over a few values, by standard normal score: the first value whose cumulative
 * probability reaches Phi(z).
 *
 * @param sortedValues ascending, at least one
 * @param probabilities of each, in the same order, summing to 1
 */
export function discreteQuantile(
  sortedValues: readonly number[],
  probabilities: readonly number[],
): (z: number) => number {
  let below = 0;
  const ends = probabilities.slice(0, -1).map((probability) => {
    below += probability;
    return normalQuantile(Math.min(1, below));
  });
  return (z) => {
    const place = ends.findIndex((end) => z <= end);
    return sortedValues[place < 0 ? sortedValues.length - 1 : place]!;
  };
}
