import type { Measured } from "../../src/domain/estimate-result.ts";

/** Something found in a JSON value, with the pointer to where. */
type Found<T> = { pointer: string; value: T };

function walk(value: unknown, pointer: string, visit: (value: unknown, pointer: string) => void): void {
  visit(value, pointer);
  if (typeof value !== "object" || value === null) return;
  for (const [key, entry] of Object.entries(value)) walk(entry, `${pointer}/${key}`, visit);
}

/** Every number anywhere in a result. */
export function numbersIn(result: unknown): Found<number>[] {
  const found: Found<number>[] = [];
  walk(result, "", (value, pointer) => {
    if (typeof value === "number") found.push({ pointer, value });
  });
  return found;
}

/** Every object anywhere in a result that holds these keys. */
export function objectsIn<K extends string>(result: unknown, ...keys: K[]): Found<Record<K, Measured>>[] {
  const found: Found<Record<K, Measured>>[] = [];
  walk(result, "", (value, pointer) => {
    if (typeof value === "object" && value !== null && keys.every((key) => key in value))
      found.push({ pointer, value: value as Record<K, Measured> });
  });
  return found;
}

/** Every measured figure anywhere in a result. */
export function measuredIn(result: unknown): Found<Measured>[] {
  const found: Found<Measured>[] = [];
  walk(result, "", (value, pointer) => {
    if (typeof value === "object" && value !== null && "standardError" in value)
      found.push({ pointer, value: value as Measured });
  });
  return found;
}
