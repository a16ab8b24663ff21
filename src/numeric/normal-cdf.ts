import { exp } from "./exp.ts";
import { polynomial } from "./polynomial.ts";

const centralEnd = 0.66291;
const middleEnd = Math.sqrt(32);
/** Below minus this score the probability is smaller than the smallest double. */
const lastScore = 38.6;
const densityAtZero = 0.3989422804014327;

/** Coefficients of the three rational approximations, highest power first. */
const centralAbove = [
  6.5682337918207449113e-2, 2.2352520354606839287, 1.6102823106855587881e2, 1.0676894854603709582e3,
  1.8154981253343561249e4,
];
const centralBelow = [
  1, 4.720258190468824187e1, 9.7609855173777669322e2, 1.0260932208618978205e4, 4.5507789335026729956e4,
];
const middleAbove = [
  1.0765576773720192317e-8, 3.9894151208813466764e-1, 8.8831497943883759412, 9.3506656132177855979e1,
  5.9727027639480026226e2, 2.4945375852903726711e3, 6.8481904505362823326e3, 1.1602651437647350124e4,
  9.8427148383839780218e3,
];
const middleBelow = [
  1, 2.2266688044328115691e1, 2.3538790178262499861e2, 1.519377599407554805e3, 6.485558298266760755e3,
  1.8615571640885098091e4, 3.4900952721145977266e4, 3.8912003286093271411e4, 1.9685429676859990727e4,
];
const farAbove = [
  2.307344176494017303e-2, 2.1589853405795699e-1, 1.274011611602473639e-1, 2.2235277870649807e-2,
  1.421619193227893466e-3, 2.9112874951168792e-5,
];
const farBelow = [
  1, 1.28426009614491121, 4.68238212480865118e-1, 6.59881378689285515e-2, 3.78239633202758244e-3,
  7.29751555083966205e-5,
];

/**
 * Cumulative distribution of the standard normal, accurate relative to itself in the lower tail.
 *
 * @param z any number
 * @returns P(Z <= z), relative error below 2e-15 for z >= -9 and 3e-14 beyond; 0 and 1 at the infinities, NaN for NaN
 * @see Cody 1969, "Rational Chebyshev approximations for the error function"; Cody 1993, Algorithm 715 (ANORM)
 */
export function normalCdf(z: number): number {
  const size = Math.abs(z);
  if (size <= centralEnd) {
    const square = z * z;
    return 0.5 + (z * polynomial(centralAbove, square)) / polynomial(centralBelow, square);
  }
  if (z !== z) return z;
  if (size > lastScore) return z < 0 ? 0 : 1;
  const tail = size <= middleEnd ? middleTail(size) : farTail(size);
  return z < 0 ? tail : 1 - tail;
}

/** P(Z < -size) = e^(-size^2/2) R(size). */
function middleTail(size: number): number {
  return (halfSquareExp(size) * polynomial(middleAbove, size)) / polynomial(middleBelow, size);
}

/** P(Z < -size) = e^(-size^2/2) / size * (1 / sqrt(2 pi) - R(1 / size^2) / size^2). */
function farTail(size: number): number {
  const inverse = 1 / (size * size);
  const rest = (inverse * polynomial(farAbove, inverse)) / polynomial(farBelow, inverse);
  return (halfSquareExp(size) * (densityAtZero - rest)) / size;
}

/** e^(-size^2/2), the square taken in two parts so that its rounding is not magnified. */
function halfSquareExp(size: number): number {
  const coarse = Math.floor(size * 16) / 16;
  return exp(-0.5 * coarse * coarse) * exp(-0.5 * (size - coarse) * (size + coarse));
}
