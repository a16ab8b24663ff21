const density = (z: number) => Math.exp((-z * z) / 2) / Math.sqrt(2 * Math.PI);

/** Phi(z) - 1/2 by the series z + z^3/3 + z^5/15 + ..., all of one sign. */
function centralArea(z: number): number {
  let term = z;
  let sum = z;
  for (let k = 1; k < 200; k += 1) {
    term *= (z * z) / (2 * k + 1);
    sum += term;
  }
  return sum * density(z);
}

/** 1 - Phi(z) for z >= 3 by the continued fraction 1/(z + 1/(z + 2/(z + 3/(z + ...)))). */
function farTail(z: number): number {
  let fraction = z;
  for (let k = 200; k >= 1; k -= 1) fraction = z + k / fraction;
  return density(z) / fraction;
}

/** The chance that a standard normal score exceeds z. */
export function upperTail(z: number): number {
  if (z >= 3) return farTail(z);
  if (z <= -3) return 1 - farTail(-z);
  return 0.5 - centralArea(z);
}

/** The chance that a standard normal score stays at or below z. */
export function lowerTail(z: number): number {
  return upperTail(-z);
}
