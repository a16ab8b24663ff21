/**
 * Mean of a stretch of values, summed in order, twice: about the first of them, then about the mean that gave.
 *
 * @param values any length
 * @param start first index
 * @param end one past the last index, > start
 * @returns the mean; of equal values exactly that value
 */
export function meanOf(values: Float64Array, start: number, end: number): number {
  const roughly = meanAbout(values[start]!, values, start, end);
  return meanAbout(roughly, values, start, end);
}

function meanAbout(centre: number, values: Float64Array, start: number, end: number): number {
  let sum = 0;
  for (let index = start; index < end; index++) sum += values[index]! - centre;
  return centre + sum / (end - start);
}
