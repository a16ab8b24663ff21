import type { EstimateResult, Measured } from "../../src/domain/estimate-result.ts";

/** What tells the entries of a list apart, in words. */
const labels = ["kind", "part", "route", "id", "risk"];

/** Every measured figure of a result by its name: the keys that lead to it, list entries by what they call themselves. */
export function measuredFields(result: EstimateResult): Map<string, Measured> {
  const fields = new Map<string, Measured>();
  collect(result, "", fields);
  return fields;
}

function collect(value: unknown, path: string, fields: Map<string, Measured>): void {
  if (typeof value !== "object" || value === null) return;
  if ("value" in value && "standardError" in value) {
    fields.set(path, value as Measured);
    return;
  }
  const isList = Array.isArray(value);
  for (const [key, entry] of Object.entries(value)) {
    const label = isList ? labelOf(entry, key) : key;
    collect(entry, path === "" ? label : `${path}/${label}`, fields);
  }
}

function labelOf(entry: unknown, position: string): string {
  if (typeof entry !== "object" || entry === null) return position;
  const parts = labels.flatMap((key) => {
    const part: unknown = (entry as Record<string, unknown>)[key];
    return typeof part === "string" || typeof part === "number" ? [String(part)] : [];
  });
  return parts.length === 0 ? position : parts.join(" ");
}
