/**
 * The next word of xoshiro128**.
 *
 * @param state four words, not all zero; moved on
 * @returns an unsigned 32-bit integer
 * @see Blackman & Vigna 2021, "Scrambled linear pseudorandom number generators"
 */
export function nextUint32(state: Uint32Array): number {
  const five = Math.imul(state[1]!, 5);
  const word = Math.imul((five << 7) | (five >>> 25), 9) >>> 0;
  const shifted = state[1]! << 9;
  state[2]! ^= state[0]!;
  state[3]! ^= state[1]!;
  state[1]! ^= state[2]!;
  state[0]! ^= state[3]!;
  state[2]! ^= shifted;
  state[3] = (state[3]! << 11) | (state[3]! >>> 21);
  return word;
}
