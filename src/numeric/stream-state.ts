import { threefry2x32 } from "./threefry2x32.ts";

const two32 = 0x100000000;
const words = new Uint32Array(2);

/**
 * Starts the generator of one chunk of one stream.
 *
 * The seed is enciphered to a 64-bit key; its low half is crossed with the chunk and the half of the state wanted, and the
 * stream's own key is enciphered under it: another stream, seed or chunk gives an unrelated state.
 *
 * @param key 64-bit hash of the stream's name, high and low 32 bits
 * @param seed integer in [0, 2^53)
 * @param chunk integer in [0, 2^31)
 * @param state receives four words, not all zero
 */
export function streamState(
  key: readonly [number, number],
  seed: number,
  chunk: number,
  state: Uint32Array,
): void {
  threefry2x32(Math.floor(seed / two32), seed >>> 0, 0, 0, words);
  const seedHigh = words[0]!;
  const seedLow = words[1]!;
  for (let half = 0; half < 2; half++) {
    threefry2x32(key[0], key[1], seedHigh, seedLow ^ (chunk * 2 + half), words);
    state.set(words, half * 2);
  }
  // The generator would stay at zero for ever: one chance in 2^128, but a bound on everything.
  if ((state[0]! | state[1]! | state[2]! | state[3]!) === 0) state[0] = 1;
}
