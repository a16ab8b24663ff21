/**
 * A name or title as one harmless line: control characters, line separators and marks that turn the direction of
 * writing become spaces, since a terminal or a page would obey them.
 */
export function plainLine(text: string): string {
  return text
    .replace(/[\p{Cc}\p{Zl}\p{Zp}\u202A-\u202E\u2066-\u2069]+/gu, " ")
    .replace(/ +/g, " ")
    .trim();
}
