/**
 * Quantile function of a normal distribution.
 *
 * @param mean any number
 * @param sd standard deviation, >= 0
 * @returns value at a standard normal score
 */
export function normalScaled(mean: number, sd: number): (z: number) => number {
  return (z) => mean + sd * z;
}
