import { threefry2x32 } from "./threefry2x32.ts";

const words = new Uint32Array(2);

/**
 * Starts the generator of one chunk of one stream: the path key is the counter, seed and chunk make the key.
 *
 * @param key 64-bit hash of the stream's key, high and low
 * @param seed integer in [0, 2^53)
 * @param chunk integer in [0, 2^30)
 * @param state receives four words, not all zero
 */
export function streamState(
  key: readonly [number, number],
  seed: number,
  chunk: number,
  state: Uint32Array,
): void {
  threefry2x32(Math.floor(seed / 0x100000000), seed >>> 0, 0, 0, words);
  const key0 = words[0]!;
  const key1 = words[1]!;
  for (let call = 0; call < 2; call++) {
    threefry2x32(key[0], key[1], key0, key1 ^ (chunk * 2 + call), words);
    state[call * 2] = words[0]!;
    state[call * 2 + 1] = words[1]!;
  }
  if ((state[0]! | state[1]! | state[2]! | state[3]!) === 0) state[0] = 1;
}
