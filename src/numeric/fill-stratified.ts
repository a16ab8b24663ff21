/** Levels within a stratum: the bits of a word that the shuffle does not need. */
const levelBits = 11;
const levels = 1 << levelBits;
const shuffleBits = 32 - levelBits;
const whole = 0x100000000;

/** Most strata: the shuffle multiplies 21 bits of a word by the place in 32 bits. */
export const mostStrata = levels;

/**
 * Fills a column with one margin of a Latin hypercube, as 32-bit words: one in each of `count` equal strata, in random
 * order, at one of 2,048 levels within its stratum.
 *
 * One word of the generator serves a place: its upper 21 bits choose the partner of Fisher and Yates's shuffle (built
 * from the inside out; no partner is likelier than another by more than count / 2^21), its lower 11 bits the level. A
 * word b stands for (b + 1/2) / 2^32, which is off the level's middle by at most 2^-32.
 *
 * @param state four words of a generator (see next-uint32.ts), not all zero; moved on by `count` words
 * @param out receives `count` words
 * @param count how many, up to `mostStrata`
 * @param places scratch, length at least `count`
 * @see McKay, Beckman & Conover 1979, on Latin hypercube sampling
 */
export function fillStratified(
  state: Uint32Array,
  out: Uint32Array,
  count: number,
  places: Int32Array,
): void {
  let a = state[0]! | 0;
  let b = state[1]! | 0;
  let c = state[2]! | 0;
  let d = state[3]! | 0;
  for (let place = 0; place < count; place++) {
    const five = Math.imul(b, 5);
    const word = Math.imul((five << 7) | (five >>> 25), 9);
    const shifted = b << 9;
    c ^= a;
    d ^= b;
    b ^= c;
    a ^= d;
    c ^= shifted;
    d = (d << 11) | (d >>> 21);
    const partner = Math.imul(word >>> levelBits, place + 1) >>> shuffleBits;
    places[place] = places[partner]!;
    places[partner] = (place << levelBits) | (word & (levels - 1));
  }
  state[0] = a;
  state[1] = b;
  state[2] = c;
  state[3] = d;
  const unit = whole / (count * levels);
  for (let draw = 0; draw < count; draw++) out[draw] = (places[draw]! + 0.5) * unit;
}
