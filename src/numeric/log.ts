const bytes = new DataView(new ArrayBuffer(8));
const ln2High = 6.9314718036912381649e-1;
const ln2Low = 1.90821492927058770002e-10;

/**
 * Natural logarithm by + - * / alone, so that every engine gives the same bits.
 *
 * x = 2^k m with m in [sqrt(1/2), sqrt(2)); log m = 2 atanh(s) with s = (m - 1) / (m + 1), |s| <= .1716, by its series.
 *
 * @param x any number
 * @returns log x, error at most 1 unit in the last place or so; -Infinity at 0, NaN below
 */
export function log(x: number): number {
  if (!(x > 0)) return x === 0 ? -Infinity : NaN;
  if (x === Infinity) return x;
  let exponent = 0;
  if (x < 2.2250738585072014e-308) {
    x *= 18014398509481984;
    exponent = -54;
  }
  bytes.setFloat64(0, x);
  const high = bytes.getUint32(0);
  exponent += (high >>> 20) - 1023;
  bytes.setUint32(0, (high & 0xfffff) | 0x3ff00000);
  let mantissa = bytes.getFloat64(0);
  if (mantissa > 1.4142135623730951) {
    mantissa /= 2;
    exponent += 1;
  }
  const f = mantissa - 1;
  const s = f / (2 + f);
  const z = s * s;
  let series = 0;
  for (let odd = 25; odd >= 3; odd -= 2) series = (series + 1 / odd) * z;
  // log(1 + f) = f - f^2/2 + s (f^2/2 + 2 series): keeps the leading term exact.
  const half = 0.5 * f * f;
  return exponent * ln2High - (half - (s * (half + 2 * series) + exponent * ln2Low) - f);
}
