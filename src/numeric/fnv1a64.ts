const two32 = 0x100000000;

/**
 * Hashes a short ASCII text: Fowler, Noll and Vo's 1a in 64 bits, by 32-bit halves.
 *
 * @param text every UTF-16 code unit counts as one byte, its lowest
 * @returns high and low 32 bits, unsigned
 * @see Fowler, Noll, Vo & Eastlake, "The FNV Non-Cryptographic Hash Algorithm"
 */
export function fnv1a64(text: string): readonly [number, number] {
  let high = 0xcbf29ce4;
  let low = 0x84222325;
  for (let place = 0; place < text.length; place++) {
    low = (low ^ (text.charCodeAt(place) & 0xff)) >>> 0;
    // Times 2^40 + 0x1b3: the low half carries into the high one, and enters it again moved up by 8 bits.
    const product = low * 0x1b3;
    high = (Math.imul(high, 0x1b3) + Math.floor(product / two32) + (low << 8)) >>> 0;
    low = product >>> 0;
  }
  return [high, low];
}
