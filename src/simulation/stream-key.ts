/**
 * Names the random stream of one quantity: the full path of its owner, its purpose and, in a purchase, the try.
 *
 * @param path ids from the outside in, joined by "/"
 * @param purpose what is drawn there: cost, hours, lead, event, band, ...
 * @param attempt the try, counted from 1; absent outside purchases
 * @returns the key whose hash seeds the stream, so that no other part of the document can move it
 */
export function streamKey(path: string, purpose: string, attempt?: number): string {
  return attempt === undefined ? `${path}|${purpose}` : `${path}|${purpose}|${attempt}`;
}
