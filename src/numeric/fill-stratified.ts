import { fillIndependent } from "./fill-independent.ts";

const whole = 0x100000000;

/**
 * Fills a column with one margin of a Latin hypercube, as 32-bit words: one in each of `count` equal strata, in random
 * order.
 *
 * A word b stands for (b + 1/2) / 2^32; exactly one lies in each [k / count, (k + 1) / count).
 *
 * @param state four words of a generator, not all zero; moved on by twice `count` words
 * @param out receives `count` words
 * @param count how many, up to 2^20
 * @param strata scratch, length at least `count`
 * @see McKay, Beckman & Conover 1979, on Latin hypercube sampling
 */
export function fillStratified(
  state: Uint32Array,
  out: Uint32Array,
  count: number,
  strata: Int32Array,
): void {
  fillIndependent(state, out, count);
  shuffleInto(strata, out, count);
  fillIndependent(state, out, count);
  const width = whole / count;
  for (let draw = 0; draw < count; draw++) {
    const stratum = strata[draw]!;
    const word = Math.floor(stratum * width + out[draw]! / count);
    // The products are whole numbers or halves below 2^53, so these comparisons are exact.
    const place = (word + 0.5) * count;
    if (place < stratum * whole) out[draw] = word + 1;
    else if (place >= (stratum + 1) * whole) out[draw] = word - 1;
    else out[draw] = word;
  }
}

/** Fisher and Yates's shuffle of 0 ... count - 1, built from the inside out with one word a place. */
function shuffleInto(order: Int32Array, words: Uint32Array, count: number): void {
  for (let place = 0; place < count; place++) {
    const other = Math.floor((words[place]! / whole) * (place + 1));
    order[place] = order[other]!;
    order[other] = place;
  }
}
