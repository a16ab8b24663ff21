import { lastScore } from "./quantile-table.ts";

/**
 * Looks scores up in a quantile table, linear between knots; scores beyond the ends count as the ends.
 *
 * @param table see `quantileTable`
 * @param z `count` scores
 * @param out receives `count` values; may be `z`
 * @param count how many
 */
export function quantilesFromZ(table: Float64Array, z: Float64Array, out: Float64Array, count: number): void {
  const cells = table.length - 1;
  const cellsPerScore = cells / (2 * lastScore);
  for (let draw = 0; draw < count; draw++) {
    const place = (z[draw]! + lastScore) * cellsPerScore;
    if (place > 0 && place < cells) {
      const cell = place | 0;
      const low = table[cell]!;
      out[draw] = low + (table[cell + 1]! - low) * (place - cell);
    } else {
      out[draw] = place > 0 ? table[cells]! : table[0]!;
    }
  }
}
