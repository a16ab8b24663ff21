import type { EstimateDocument } from "./estimate-document.ts";

/**
 * Computes something once for each document, as nearly every rule asks for the same lists.
 *
 * @param compute what is wanted of a document, which is never changed once read
 * @returns the same function, which remembers for as long as the document is held by others
 */
export function perDocument<T>(
  compute: (document: EstimateDocument) => T,
): (document: EstimateDocument) => T {
  const known = new WeakMap<EstimateDocument, T>();
  return (document) => {
    const remembered = known.get(document) ?? compute(document);
    known.set(document, remembered);
    return remembered;
  };
}
