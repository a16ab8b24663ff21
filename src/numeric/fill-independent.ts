/**
 * Fills a column with uniform 32-bit words: `nextUint32` again and again, its state held in local variables for speed.
 *
 * @param state four words, not all zero; moved on
 * @param out receives `count` words
 * @param count how many
 */
export function fillIndependent(state: Uint32Array, out: Uint32Array, count: number): void {
  let a = state[0]! | 0;
  let b = state[1]! | 0;
  let c = state[2]! | 0;
  let d = state[3]! | 0;
  for (let draw = 0; draw < count; draw++) {
    const five = Math.imul(b, 5);
    out[draw] = Math.imul((five << 7) | (five >>> 25), 9);
    const shifted = b << 9;
    c ^= a;
    d ^= b;
    b ^= c;
    a ^= d;
    c ^= shifted;
    d = (d << 11) | (d >>> 21);
  }
  state[0] = a;
  state[1] = b;
  state[2] = c;
  state[3] = d;
}
