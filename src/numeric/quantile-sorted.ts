/**
 * Quantile of ascending values, Hyndman & Fan type 7: linear between the values at (n - 1) p.
 *
 * @param sorted ascending, at least one value
 * @param probability in [0, 1]
 * @see Hyndman & Fan 1996, "Sample quantiles in statistical packages"
 */
export function quantileSorted(sorted: Float64Array, probability: number): number {
  const place = (sorted.length - 1) * probability;
  const below = Math.floor(place);
  const low = sorted[below]!;
  const high = sorted[Math.min(sorted.length - 1, below + 1)]!;
  return low + (high - low) * (place - below);
}
