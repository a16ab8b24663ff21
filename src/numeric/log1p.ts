import { log } from "./log.ts";

/**
 * The logarithm of 1 + x, accurate for small x too.
 *
 * @param x at least -1
 * @returns log(1 + x), relative error about 1e-15; -Infinity at -1, NaN below
 * @see Higham, "Accuracy and Stability of Numerical Algorithms", on computing log(1 + x)
 */
export function log1p(x: number): number {
  const sum = 1 + x;
  const rounded = sum - 1;
  if (rounded === 0) return x;
  if (sum === Infinity) return sum;
  // What rounding 1 + x changes in the logarithm, it changes in `rounded` in the same proportion.
  return log(sum) * (x / rounded);
}
