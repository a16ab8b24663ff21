/**
 * Adds up a column, and its products with another, stretch by stretch: what covariances are made of. Two running sums of
 * each take turns, since one would wait for itself. Sums of n terms in double precision: relative error below n 2^-53 of
 * the sum of their sizes.
 *
 * @param column any values
 * @param other about its mean, so that nothing cancels
 * @param starts where each stretch begins, and the end
 * @returns stretch x (column, column x other)
 */
export function sumProducts(column: Float64Array, other: Float64Array, starts: Int32Array): Float64Array {
  const sums = new Float64Array(2 * (starts.length - 1));
  for (let stretch = 0; stretch < starts.length - 1; stretch++) {
    const end = starts[stretch + 1]!;
    let sum = 0;
    let product = 0;
    let otherSum = 0;
    let otherProduct = 0;
    let draw = starts[stretch]!;
    for (; draw + 1 < end; draw += 2) {
      const value = column[draw]!;
      const next = column[draw + 1]!;
      sum += value;
      product += value * other[draw]!;
      otherSum += next;
      otherProduct += next * other[draw + 1]!;
    }
    if (draw < end) {
      sum += column[draw]!;
      product += column[draw]! * other[draw]!;
    }
    sums[2 * stretch] = sum + otherSum;
    sums[2 * stretch + 1] = product + otherProduct;
  }
  return sums;
}
