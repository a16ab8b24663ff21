/**
 * Hashes a short ASCII text: Fowler-Noll-Vo 1a, 64 bits, by 32-bit halves.
 *
 * @param text its UTF-16 code units are taken modulo 256
 * @returns high and low 32 bits, unsigned
 * @see Fowler, Noll, Vo & Eastlake, "The FNV Non-Cryptographic Hash Algorithm"
 */
export function fnv1a64(text: string): readonly [number, number] {
  let high = 0xcbf29ce4;
  let low = 0x84222325;
  for (let index = 0; index < text.length; index++) {
    low = (low ^ (text.charCodeAt(index) & 0xff)) >>> 0;
    // Times 2^40 + 0x1b3: the low half times 0x1b3 carries into the high one, and moves up by 8 + 32 bits.
    const product = low * 0x1b3;
    const carry = Math.floor(product / 0x100000000);
    high = (Math.imul(high, 0x1b3) + carry + (low << 8)) >>> 0;
    low = product >>> 0;
  }
  return [high, low];
}
