/** placeholder until replaced */
export function meanOf(values: Float64Array, start: number, end: number): number {
  const first = values[start]!;
  let sum = 0;
  for (let i = start; i < end; i++) sum += values[i]! - first;
  return first + sum / (end - start);
}
