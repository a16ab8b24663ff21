/** Scores at the ends of every table. */
export const lastScore = 6.5;
/** Cells of a table when not said otherwise. */
export const defaultCells = 512;

/**
 * Tabulates a quantile function on knots uniform in the score.
 *
 * @param quantile value at a standard normal score
 * @param cellCount even number of cells, so that score 0 is a knot
 * @returns values at -6.5 ... 6.5, length `cellCount` + 1
 */
export function quantileTable(
  quantile: (z: number) => number,
  cellCount: number = defaultCells,
): Float64Array {
  const step = (2 * lastScore) / cellCount;
  return Float64Array.from({ length: cellCount + 1 }, (_, knot) => quantile(knot * step - lastScore));
}
