/** Whose a piece of work is, by piece, in memory that threads share: 0 nobody's, -1 done, else the number of a thread. */
export type Claims = Int32Array;

const nobody = 0;
const done = -1;

/** Claims of as many pieces, all nobody's. */
export function makeClaims(pieces: number): Claims {
  return new Int32Array(new SharedArrayBuffer(pieces * Int32Array.BYTES_PER_ELEMENT));
}

/**
 * Claims the first piece that is nobody's.
 *
 * @param claimant number of the thread, above 0
 * @returns the piece, or -1 when none is left
 */
export function claimNext(claims: Claims, claimant: number): number {
  for (let piece = 0; piece < claims.length; piece++) {
    if (Atomics.compareExchange(claims, piece, nobody, claimant) === nobody) return piece;
  }
  return -1;
}

/** Notes that a piece is done: what was written is there for every thread to see. */
export function settleClaim(claims: Claims, piece: number): void {
  Atomics.store(claims, piece, done);
}

/** Makes what a thread claimed and did not finish nobody's again. */
export function releaseClaims(claims: Claims, claimant: number): void {
  for (let piece = 0; piece < claims.length; piece++) {
    Atomics.compareExchange(claims, piece, claimant, nobody);
  }
}

/** Leaves nothing to claim. */
export function closeClaims(claims: Claims): void {
  for (let piece = 0; piece < claims.length; piece++) settleClaim(claims, piece);
}
