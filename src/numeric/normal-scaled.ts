/**
 * Quantile function of a normal distribution, by standard normal score.
 *
 * @param mean its mean
 * @param sd its standard deviation, >= 0
 */
export function normalScaled(mean: number, sd: number): (z: number) => number {
  return (z) => mean + sd * z;
}
