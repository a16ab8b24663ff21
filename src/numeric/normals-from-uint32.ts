import { normalQuantile } from "./normal-quantile.ts";

/** Cells an octave is divided into: the bits that follow the leading one. */
const cellBits = 8;
const cells = 1 << cellBits;
const octaves = 32;
const fractionBits = 31 - cellBits;
const fractionUnit = 1 / (1 << fractionBits);

/** Scores at the cell borders of the lower half, p = 2^octave (1 + cell / cells) / 2^33, and 0 at p = 1/2. */
const knots = buildKnots();

function buildKnots(): Float64Array {
  const table = new Float64Array(octaves * cells + 1);
  let octaveStart = 1 / 0x200000000;
  for (let octave = 0; octave < octaves; octave++) {
    for (let cell = 0; cell < cells; cell++) {
      table[octave * cells + cell] = normalQuantile(octaveStart * (1 + cell / cells));
    }
    octaveStart *= 2;
  }
  return table;
}

/**
 * Turns uniform 32-bit words into standard normal scores: word b into Phi^-1((b + 1/2) / 2^32), by a table with cells of
 * equal size within each octave of the probability, linear within a cell.
 *
 * Exactly antisymmetric about the middle, never falling as b rises; error at most 8e-7.
 *
 * @param bits `count` words
 * @param out receives `count` scores within +-6.34
 * @param count how many
 */
export function normalsFromUint32(bits: Uint32Array, out: Float64Array, count: number): void {
  for (let draw = 0; draw < count; draw++) {
    const word = bits[draw]!;
    // All ones in the upper half of the words, where the score is minus that of the mirrored word.
    const upper = (word | 0) >> 31;
    // 2 b + 1 in units of 2^-33: odd, so never zero.
    const odd = ((word ^ upper) << 1) | 1;
    const zeros = Math.clz32(odd);
    const mantissa = odd << zeros;
    const knot = ((31 - zeros) << cellBits) | ((mantissa >>> fractionBits) & (cells - 1));
    const fraction = (mantissa & ((1 << fractionBits) - 1)) * fractionUnit;
    const low = knots[knot]!;
    out[draw] = (1 + 2 * upper) * (low + (knots[knot + 1]! - low) * fraction);
  }
}
