import { DomainError } from "./domain-error.ts";
import { normalQuantile } from "./normal-quantile.ts";

/**
 * Quantile function of a choice among values: the least one whose cumulative probability reaches Phi(z).
 *
 * @param sortedValues ascending, at least one
 * @param probabilities of the values in the same order, summing to 1 but for rounding, which the last value takes
 * @returns value at a standard normal score
 * @throws {DomainError} `probabilities-mismatched` unless there are equally many of both, one at least
 */
export function discreteQuantile(
  sortedValues: readonly number[],
  probabilities: readonly number[],
): (z: number) => number {
  if (sortedValues.length === 0 || sortedValues.length !== probabilities.length) {
    throw new DomainError(
      "probabilities-mismatched",
      `${sortedValues.length} values with ${probabilities.length} probabilities`,
    );
  }
  let cumulative = 0;
  const lastScores = probabilities.slice(0, -1).map((probability) => {
    cumulative += probability;
    return normalQuantile(Math.min(1, cumulative));
  });
  return (z) => {
    const place = lastScores.findIndex((lastScore) => z <= lastScore);
    return sortedValues[place < 0 ? sortedValues.length - 1 : place]!;
  };
}
