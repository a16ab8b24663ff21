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
    let place = (z[draw]! + lastScore) * cellsPerScore;
    place = place > 0 ? (place < cells ? place : cells) : 0;
    // The last knot is looked up as the end of the last cell.
    const cell = place < cells ? place | 0 : cells - 1;
    const low = table[cell]!;
    out[draw] = low + (table[cell + 1]! - low) * (place - cell);
  }
}
