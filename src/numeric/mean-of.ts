/**
 * Mean of a stretch of values, summed in order about the first of them, so that equal values give exactly themselves.
 *
 * @param values any length
 * @param start first index
 * @param end one past the last index, > start
 */
export function meanOf(values: Float64Array, start: number, end: number): number {
  const first = values[start]!;
  let sum = 0;
  for (let index = start; index < end; index++) sum += values[index]! - first;
  return first + sum / (end - start);
}
