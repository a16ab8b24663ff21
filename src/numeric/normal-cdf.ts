import { exp } from "./exp.ts";

const densityAtZero = 0.3989422804014327;
/** Below this score the continued fraction converges faster than the series. */
const tailScore = 3;

/**
 * Cumulative distribution of the standard normal, accurate relative to itself in the lower tail.
 *
 * Near 0 the series Phi(z) = 1/2 + phi(z) (z + z^3/3 + z^5/15 + ...); further out the continued fraction of Mills' ratio.
 *
 * @param z any number
 * @returns P(Z <= z), relative error about 1e-14 for z > -37
 * @see Abramowitz & Stegun 26.2.11 and 26.2.14
 */
export function normalCdf(z: number): number {
  if (z !== z) return z;
  if (z > tailScore) return 1 - lowerTail(z);
  if (z < -tailScore) return lowerTail(-z);
  let term = z;
  let sum = z;
  for (let odd = 3; Math.abs(term) > Math.abs(sum) * 1e-17 && odd < 200; odd += 2) {
    term *= (z * z) / odd;
    sum += term;
  }
  return 0.5 + density(z) * sum;
}

function density(z: number): number {
  return densityAtZero * exp(-0.5 * z * z);
}

/** P(Z < -z) for z > 0: phi(z) / (z + 1/(z + 2/(z + 3/(z + ...)))), from the far end. */
function lowerTail(z: number): number {
  if (z === Infinity) return 0;
  let fraction = z;
  for (let term = 60; term >= 1; term--) fraction = z + term / fraction;
  return density(z) / fraction;
}
