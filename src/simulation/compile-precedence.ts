import type { Operation } from "../domain/operation.ts";
import type { Items } from "./items.ts";
import type { Precedence } from "./program.ts";

/**
 * Resolves every `after` of a document's operations. One that names the same part, or whole-machine work from
 * whole-machine work, is left to the order of the chain.
 *
 * @param items the operations and findings in order
 * @returns predecessors by item, and which items take part in any precedence
 */
export function compilePrecedence(items: Items): Precedence {
  const linked = new Uint8Array(items.list.length);
  const predecessors = items.list.map(({ work, list }, position) => {
    const after = (work as Partial<Operation>).after ?? [];
    const found = after
      .map((reference) => (reference.includes("/") ? reference : `${list}/${reference}`))
      .filter((path) => ownerOf(path) !== ownerOf(list))
      .map((path) => items.position.get(path)!);
    for (const predecessor of found) linked[predecessor] = 1;
    if (found.length > 0) linked[position] = 1;
    return found;
  });
  return { predecessors, linked };
}

/** The part, or `whole`, that a path belongs to. */
function ownerOf(path: string): string {
  return path.split("/", 1)[0]!;
}
