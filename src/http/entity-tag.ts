/** The strong entity tag of a revision: a document's bytes follow from its revision. */
export function entityTag(revision: number): string {
  return `"${revision}"`;
}

// Source of the grammar: RFC 9110, sections 8.8.3 and 5.6.1 (empty elements of a list count for nothing).
const oneTag = /[ \t]*((?:W\/)?"[\x21\x23-\x7e\x80-\xff]*")?[ \t]*(?:,|$)/y;

/**
 * Reads the tags of an If-Match or If-None-Match header.
 *
 * @returns the tags as written, or one `*`; undefined when it is neither
 */
export function parseEntityTags(header: string): string[] | undefined {
  if (header.trim() === "*") return ["*"];
  const tags: string[] = [];
  oneTag.lastIndex = 0;
  while (oneTag.lastIndex < header.length) {
    const found = oneTag.exec(header);
    if (found === null) return undefined;
    if (found[1] !== undefined) tags.push(found[1]);
  }
  return tags.length === 0 ? undefined : tags;
}
