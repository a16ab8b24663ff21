import { DomainError } from "./domain-error.ts";
import { inverseLogit } from "./logit-beta.ts";
import { logitBetaQuantile } from "./logit-beta-quantile.ts";
import { requireAscending } from "./require-ascending.ts";

/**
 * Quantile function of the PERT distribution: a beta with alpha = 1 + weight (mode - low) / (high - low) and
 * beta = 1 + weight (high - mode) / (high - low).
 *
 * @param low least value
 * @param mode likeliest value, `low` and `high` included
 * @param high greatest value; equal to `low` gives a constant
 * @param weight how strongly the mode draws, in (0, 100]; 4 is usual
 * @returns value at a standard normal score, within 1e-12 of the range; scores beyond +-8.75 count as +-8.75
 * @throws {DomainError} `values-not-ascending` unless low <= mode <= high; `weight-out-of-range`
 */
export function betaPertQuantile(
  low: number,
  mode: number,
  high: number,
  weight: number,
): (z: number) => number {
  requireAscending("low <= mode <= high", low, mode, high);
  if (!(weight > 0 && weight <= 100)) {
    throw new DomainError("weight-out-of-range", `weight ${weight} is not in (0, 100]`);
  }
  if (low === high) return () => low;
  const width = high - low;
  const logit = logitBetaQuantile(1 + (weight * (mode - low)) / width, 1 + (weight * (high - mode)) / width);
  return (z) => {
    const y = logit(z);
    return y < 0 ? low + width * inverseLogit(y) : high - width * inverseLogit(-y);
  };
}
