import { normalQuantile } from "./normal-quantile.ts";

/** Cells an octave is divided into. */
const cells = 128;
const octaves = 31;
const whole = 0x100000000;

/**
 * Scores at the cell borders of the lower half, p = (b + 1/2) / 2^32: octave o holds b in [2^o, 2^(o + 1)), divided into
 * 128 equal cells; what lies below 128 has a knot for each integer.
 */
const knots = buildKnots();

function buildKnots(): Float64Array {
  const table = new Float64Array(octaves * cells + 1);
  for (let octave = 0; octave < octaves; octave++) {
    for (let cell = 0; cell < cells; cell++) {
      const position = (1 + cell / cells) * (octave === 0 ? 1 : scaleOf(octave));
      table[octave * cells + cell] = normalQuantile(position / whole);
    }
  }
  table[octaves * cells] = 0;
  return table;
}

function scaleOf(octave: number): number {
  let scale = 1;
  for (let step = 0; step < octave; step++) scale *= 2;
  return scale;
}

/**
 * Turns uniform 32-bit words into standard normal scores: z = Phi^-1((b + 1/2) / 2^32) by a table with log-spaced cells,
 * linear within a cell.
 *
 * Antisymmetric about the middle word and monotone; error at most about 4e-6.
 *
 * @param bits `count` words
 * @param out receives `count` scores within +-6.34
 * @param count how many
 */
export function normalsFromUint32(bits: Uint32Array, out: Float64Array, count: number): void {
  for (let draw = 0; draw < count; draw++) {
    const word = bits[draw]!;
    const upper = word >>> 31;
    const folded = upper === 1 ? ~word >>> 0 : word;
    const position = folded + 0.5;
    const octave = folded === 0 ? 0 : 31 - Math.clz32(folded);
    const scale = 1 << octave;
    const place = folded === 0 ? 0 : (position / scale - 1) * cells;
    const cell = place | 0;
    const knot = octave * cells + cell;
    const low = knots[knot]!;
    const score = low + (knots[knot + 1]! - low) * (place - cell);
    out[draw] = upper === 1 ? -score : score;
  }
}
