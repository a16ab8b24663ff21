/**
 * Value of a polynomial, by Horner's scheme.
 *
 * @param coefficients highest power first, at least one
 * @param x any number
 */
export function polynomial(coefficients: ArrayLike<number>, x: number): number {
  let value = coefficients[0]!;
  for (let place = 1; place < coefficients.length; place++) value = value * x + coefficients[place]!;
  return value;
}
