/** An entry of a document with the way to it. */
export interface Place<T> {
  /** RFC 6901 JSON Pointer. */
  readonly pointer: string;
  readonly entry: T;
}

/**
 * Lists the entries of a list with the way to each.
 *
 * @param pointer to the list
 * @param list absent counts as empty
 */
export function placesOf<T>(pointer: string, list: readonly T[] | undefined): Place<T>[] {
  return (list ?? []).map((entry, position) => ({ pointer: `${pointer}/${position}`, entry }));
}
