const rotations = [13, 15, 26, 6, 17, 29, 16, 24] as const;
const parity = 0x1bd11bda;
const rounds = 20;

/**
 * Threefry-2x32 with 20 rounds: a keyed one-to-one map of 64-bit counters whose outputs look random.
 *
 * @param counter0 first word of the counter, unsigned 32 bits, as are all
 * @param counter1 second word of the counter
 * @param key0 first word of the key
 * @param key1 second word of the key
 * @param out receives two words
 * @see Salmon, Moraes, Dror & Shaw 2011, "Parallel random numbers: as easy as 1, 2, 3"
 */
export function threefry2x32(
  counter0: number,
  counter1: number,
  key0: number,
  key1: number,
  out: Uint32Array,
): void {
  const keys = [key0, key1, parity ^ key0 ^ key1];
  let a = (counter0 + key0) | 0;
  let b = (counter1 + key1) | 0;
  for (let round = 0; round < rounds; round++) {
    const turn = rotations[round & 7]!;
    a = (a + b) | 0;
    b = ((b << turn) | (b >>> (32 - turn))) ^ a;
    if ((round & 3) !== 3) continue;
    const injection = (round >> 2) + 1;
    a = (a + keys[injection % 3]!) | 0;
    b = (b + keys[(injection + 1) % 3]! + injection) | 0;
  }
  out[0] = a;
  out[1] = b;
}
