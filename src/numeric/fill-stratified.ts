import { fillIndependent } from "./fill-independent.ts";

const whole = 0x100000000;

let shuffle = new Uint32Array(1024);

/**
 * Fills a column with one margin of a Latin hypercube, as 32-bit words: one in each of `count` equal strata, in random order.
 *
 * @param state four words of a generator, not all zero; moved on
 * @param out receives `count` words
 * @param count how many, up to 2^20
 * @param strata scratch, length at least `count`
 */
export function fillStratified(
  state: Uint32Array,
  out: Uint32Array,
  count: number,
  strata: Int32Array,
): void {
  if (shuffle.length < count) shuffle = new Uint32Array(count);
  fillIndependent(state, shuffle, count);
  fillIndependent(state, out, count);
  for (let place = 0; place < count; place++) strata[place] = place;
  for (let place = count - 1; place > 0; place--) {
    const other = Math.floor((shuffle[place]! / whole) * (place + 1));
    const stratum = strata[other]!;
    strata[other] = strata[place]!;
    strata[place] = stratum;
  }
  const width = whole / count;
  for (let draw = 0; draw < count; draw++) {
    out[draw] = Math.floor((strata[draw]! + out[draw]! / whole) * width);
  }
}
