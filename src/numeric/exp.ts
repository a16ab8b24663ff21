const bytes = new DataView(new ArrayBuffer(8));
const ln2High = 6.9314718036912381649e-1;
const ln2Low = 1.90821492927058770002e-10;
const perLn2 = 1.4426950408889634;

/**
 * The exponential by + - * / alone, so that every engine gives the same bits.
 *
 * x = k log 2 + r with |r| <= .35; e^r by its Taylor series, then scaled by 2^k in two steps.
 *
 * @param x any number
 * @returns e^x, error at most 1 unit in the last place or so; 0 below -745.2, Infinity above 709.8
 */
export function exp(x: number): number {
  if (x !== x) return x;
  if (x > 709.782712893384) return Infinity;
  if (x < -745.1332191019412) return 0;
  const k = Math.floor(x * perLn2 + 0.5);
  const high = x - k * ln2High;
  const low = k * ln2Low;
  const r = high - low;
  let tail = 0;
  for (let term = 17; term >= 2; term--) tail = (tail + 1) * (r / term);
  // e^r = 1 + r + r tail: the rounding error of r is put back.
  const value = 1 + (high - (low - r * tail));
  const half = Math.floor(k / 2);
  return value * powerOfTwo(half) * powerOfTwo(k - half);
}

function powerOfTwo(exponent: number): number {
  bytes.setUint32(0, (exponent + 1023) << 20);
  bytes.setUint32(4, 0);
  return bytes.getFloat64(0);
}
