const unit = 1 / 0x100000000;

/**
 * Fills a column with 32-bit words that are even within slices of another column: the draws, in the other's order, are cut
 * into floor(sqrt(count)) slices of nearly equal size, and within each slice one word lies in each of as many equal strata
 * as it has draws, in random order.
 *
 * Sums whose terms mix the two columns lose the scatter of their interaction, which a Latin hypercube, even in each
 * column alone, leaves. One word of the generator serves a draw: scaled to the strata not yet taken, its whole part picks
 * one (Fisher and Yates), its fraction the place inside.
 *
 * @param state four words of a generator (see next-uint32.ts), not all zero; moved on by `count` words
 * @param out receives `count` words
 * @param count how many
 * @param order the draws in ascending order of the other column
 * @param strata scratch, length at least sqrt(count) + 3
 * @see Tang 1993, "Orthogonal array-based Latin hypercubes", for evenness in pairs of columns
 */
export function fillWithinSlices(
  state: Uint32Array,
  out: Uint32Array,
  count: number,
  order: Int32Array,
  strata: Int32Array,
): void {
  let a = state[0]! | 0;
  let b = state[1]! | 0;
  let c = state[2]! | 0;
  let d = state[3]! | 0;
  const slices = Math.max(1, Math.floor(Math.sqrt(count)));
  let start = 0;
  for (let slice = 1; slice <= slices; slice++) {
    const end = Math.floor((slice * count) / slices);
    const width = 0x100000000 / (end - start);
    for (let place = start; place < end; place++) strata[place - start] = place - start;
    for (let place = start; place < end; place++) {
      const five = Math.imul(b, 5);
      const word = Math.imul((five << 7) | (five >>> 25), 9) >>> 0;
      const shifted = b << 9;
      c ^= a;
      d ^= b;
      b ^= c;
      a ^= d;
      c ^= shifted;
      d = (d << 11) | (d >>> 21);
      const lot = word * unit * (end - place);
      const ahead = lot | 0;
      const at = place - start;
      const stratum = strata[at + ahead]!;
      strata[at + ahead] = strata[at]!;
      out[order[place]!] = (stratum + (lot - ahead)) * width;
    }
    start = end;
  }
  state[0] = a;
  state[1] = b;
  state[2] = c;
  state[3] = d;
}
