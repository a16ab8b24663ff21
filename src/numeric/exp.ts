import { ln2High, ln2Low } from "./ln2-parts.ts";
import { polynomial } from "./polynomial.ts";

const perLn2 = 1.4426950408889634;

/** 1/13!, 1/12!, ... 1/2!. */
const inverseFactorials = [
  1 / 6227020800,
  1 / 479001600,
  1 / 39916800,
  1 / 3628800,
  1 / 362880,
  1 / 40320,
  1 / 5040,
  1 / 720,
  1 / 120,
  1 / 24,
  1 / 6,
  1 / 2,
];

/** Taking doubles apart through a view with a fixed byte order gives the same bits on every machine. */
const bytes = new DataView(new ArrayBuffer(8));

/**
 * The exponential function by + - * / alone, so that every engine gives the same bits.
 *
 * x = k log 2 + r with |r| <= .35; e^r by its Taylor series, then scaled by 2^k.
 *
 * @param x any number
 * @returns e^x within 1 unit in the last place; Infinity above 709.78, 0 below -745.13, NaN for NaN
 */
export function exp(x: number): number {
  if (x !== x) return x;
  if (x > 709.782712893384) return Infinity;
  if (x < -745.1332191019412) return 0;
  const k = Math.floor(x * perLn2 + 0.5);
  const high = x - k * ln2High;
  const low = k * ln2Low;
  const r = high - low;
  // e^r = 1 + r + r^2 (1/2! + r/3! + ...), with r as high - low so that its rounding is not felt.
  const value = 1 + (high - (low - r * r * polynomial(inverseFactorials, r)));
  // In two steps, since 2^k alone may not be a normal number; only the second can round.
  const half = Math.floor(k / 2);
  return value * powerOfTwo(half) * powerOfTwo(k - half);
}

function powerOfTwo(exponent: number): number {
  bytes.setUint32(0, (exponent + 1023) << 20);
  return bytes.getFloat64(0);
}
