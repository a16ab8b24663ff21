/**
 * Writes the way to a value in a JSON document.
 *
 * @param path field names and positions, from the outside in
 * @returns the pointer; "" for an empty path, which is the whole document
 * @see RFC 6901
 */
export function jsonPointer(path: readonly PropertyKey[]): string {
  return path.map((step) => `/${String(step).replaceAll("~", "~0").replaceAll("/", "~1")}`).join("");
}
