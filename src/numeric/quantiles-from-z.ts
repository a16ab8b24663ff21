import { lastScore } from "./quantile-table.ts";

/**
 * Looks scores up in a quantile table, linear between knots; scores beyond the ends count as the ends.
 *
 * @param table see `quantileTable`
 * @param z `count` scores
 * @param out receives `count` values
 * @param count how many
 */
export function quantilesFromZ(table: Float64Array, z: Float64Array, out: Float64Array, count: number): void {
  const cells = table.length - 1;
  const perScore = cells / (2 * lastScore);
  for (let draw = 0; draw < count; draw++) {
    const place = Math.min(cells, Math.max(0, (z[draw]! + lastScore) * perScore));
    const cell = Math.min(cells - 1, place | 0);
    const low = table[cell]!;
    out[draw] = low + (table[cell + 1]! - low) * (place - cell);
  }
}
