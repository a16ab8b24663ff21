import { baseDocument } from "./base-document.ts";

/** Value that takes a field away. */
export const nothing = Symbol("nothing");

/**
 * The base document with one value replaced, added or (`nothing`) taken away.
 *
 * @param pointer JSON Pointer whose parent exists; `-` as its last step appends to a list
 */
export function withChange(pointer: string, value: unknown): unknown {
  return withChanges([pointer, value]);
}

/** The base document with several values changed, in order. */
export function withChanges(...changes: (readonly [pointer: string, value: unknown])[]): unknown {
  const document: unknown = baseDocument();
  for (const [pointer, value] of changes) change(document, pointer.split("/").slice(1), value);
  return document;
}

function change(document: unknown, path: readonly string[], value: unknown): void {
  let parent = document as Record<string, unknown>;
  for (const step of path.slice(0, -1)) parent = parent[step] as Record<string, unknown>;
  const last = path.at(-1)!;
  if (value === nothing) Reflect.deleteProperty(parent, last);
  else if (Array.isArray(parent) && last === "-") parent.push(value);
  else parent[last] = value;
}
