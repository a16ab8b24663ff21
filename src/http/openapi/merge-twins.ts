type Json = unknown;
type JsonObject = Record<string, Json>;

const prefix = "#/components/schemas/";

/**
 * Leaves one component where a schema is the same read and written. The generator names every schema
 * twice, X for answers and XInput for requests.
 */
export function mergeTwins<T extends object>(document: T): T {
  const { components, ...rest } = document as T & { components?: { schemas?: JsonObject } };
  const schemas = components?.schemas ?? {};
  const twins = Object.keys(schemas).filter((name) => isTwin(name, schemas));
  const renamed = new Map(twins.map((name) => [prefix + name, prefix + name.replace(/Input$/, "")]));
  const kept = Object.fromEntries(Object.entries(schemas).filter(([name]) => !twins.includes(name)));
  const merged = withReferences({ ...rest, components: { ...components, schemas: kept } }, renamed) as T;
  return withoutUnused(merged);
}

/** Whether a request's schema says the same as the answer's, once both refer to the same others. */
function isTwin(name: string, schemas: JsonObject): boolean {
  const other = name.replace(/Input$/, "");
  if (other === name || !(other in schemas)) return false;
  return JSON.stringify(schemas[name]).replaceAll(/Input"/g, '"') === JSON.stringify(schemas[other]);
}

function withReferences(value: Json, renamed: ReadonlyMap<string, string>): Json {
  if (Array.isArray(value)) return value.map((entry) => withReferences(entry, renamed));
  if (typeof value !== "object" || value === null) return value;
  return Object.fromEntries(
    Object.entries(value).map(([key, field]) => [
      key,
      key === "$ref" && typeof field === "string"
        ? (renamed.get(field) ?? field)
        : withReferences(field, renamed),
    ]),
  );
}

/** Schemas are registered for the whole process, whether or not a route refers to them. */
function withoutUnused<T extends object>(document: T): T {
  const { components, ...rest } = document as T & { components: { schemas: JsonObject } };
  const used = new Set<string>();
  const visit = (value: Json): void => {
    for (const [, name] of JSON.stringify(value).matchAll(/"\$ref":"#\/components\/schemas\/([^"]+)"/g)) {
      if (name === undefined || used.has(name)) continue;
      used.add(name);
      visit(components.schemas[name]);
    }
  };
  visit(rest);
  const schemas = Object.fromEntries(Object.entries(components.schemas).filter(([name]) => used.has(name)));
  return { ...rest, components: { ...components, schemas } } as unknown as T;
}
