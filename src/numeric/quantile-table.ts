/** Scores at the ends of every table are minus and plus this. */
export const lastScore = 6.5;

/**
 * Tabulates a quantile function at scores evenly spaced over [-6.5, 6.5].
 *
 * @param quantile value at a standard normal score
 * @param knots odd, so that score 0 is a knot
 * @returns values at the knots, length `knots`
 * @see quantiles-from-z.ts for the error of looking values up in it
 */
export function quantileTable(quantile: (z: number) => number, knots = 513): Float64Array {
  const step = (2 * lastScore) / (knots - 1);
  const table = new Float64Array(knots);
  for (let knot = 0; knot < knots; knot++) table[knot] = quantile(knot * step - lastScore);
  return table;
}
