import { quantileSorted } from "./quantile-sorted.ts";
export function quantilesOf(
  values: Float64Array,
  start: number,
  end: number,
  probabilities: readonly number[],
): number[] {
  const sorted = values.slice(start, end).sort();
  return probabilities.map((p) => quantileSorted(sorted, p));
}
