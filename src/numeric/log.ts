import { ln2High, ln2Low } from "./ln2-parts.ts";
import { polynomial } from "./polynomial.ts";

const smallestNormal = 2.2250738585072014e-308;
const two54 = 18014398509481984;

/** 1/25, 1/23, ... 1/3, 0. */
const inverseOdds = [
  1 / 25,
  1 / 23,
  1 / 21,
  1 / 19,
  1 / 17,
  1 / 15,
  1 / 13,
  1 / 11,
  1 / 9,
  1 / 7,
  1 / 5,
  1 / 3,
  0,
];

/** Taking doubles apart through a view with a fixed byte order gives the same bits on every machine. */
const bytes = new DataView(new ArrayBuffer(8));

/**
 * The natural logarithm by + - * / alone, so that every engine gives the same bits.
 *
 * x = 2^k m with m in [sqrt(1/2), sqrt(2)); log m = 2 atanh s with s = (m - 1) / (m + 1), |s| <= .172, by its series.
 *
 * @param x any number
 * @returns log x within 1 unit in the last place; -Infinity at 0, NaN below 0 and for NaN
 */
export function log(x: number): number {
  if (!(x > 0)) return x === 0 ? -Infinity : NaN;
  if (x === Infinity) return x;
  const lifted = x < smallestNormal;
  bytes.setFloat64(0, lifted ? x * two54 : x);
  const high = bytes.getUint32(0);
  bytes.setUint32(0, (high & 0xfffff) | 0x3ff00000);
  const between1And2 = bytes.getFloat64(0);
  const halved = between1And2 > Math.SQRT2;
  const k = (high >>> 20) - 1023 - (lifted ? 54 : 0) + (halved ? 1 : 0);
  const f = (halved ? between1And2 / 2 : between1And2) - 1;
  const s = f / (2 + f);
  // log(1 + f) = f - (f^2/2 - s (f^2/2 + 2 (s^2/3 + s^4/5 + ...))): the leading term stays exact.
  const half = 0.5 * f * f;
  const rest = s * (half + 2 * polynomial(inverseOdds, s * s));
  return k * ln2High - (half - (rest + k * ln2Low) - f);
}
