type Schemas = Record<string, unknown>;

interface Described {
  readonly components: { readonly schemas: Schemas };
}

const prefix = "#/components/schemas/";

/**
 * Leaves one component where a schema is the same read and written: the generator names every schema
 * twice, X for answers and XInput for requests. Schemas that no route refers to go too, because schemas are
 * registered for the whole process.
 */
export function mergeTwins<T extends object>(document: T): T {
  const { schemas } = (document as Described).components;
  const twins = new Set(Object.keys(schemas).filter((name) => isTwin(name, schemas)));
  const merged = JSON.parse(JSON.stringify(document), (key, value: unknown) => {
    if (key !== "$ref" || typeof value !== "string") return value;
    return twins.has(value.slice(prefix.length)) ? withoutSuffix(value) : value;
  }) as T & Described;
  const { components, ...rest } = merged;
  const used = namesUsedIn(rest, components.schemas);
  const kept = Object.entries(components.schemas).filter(([name]) => used.has(name));
  return { ...merged, components: { ...components, schemas: Object.fromEntries(kept) } };
}

/** Whether a request's schema says the same as the answer's, once both refer to the same others. */
function isTwin(name: string, schemas: Schemas): boolean {
  const other = withoutSuffix(name);
  if (other === name || !(other in schemas)) return false;
  return JSON.stringify(schemas[name]).replaceAll('Input"', '"') === JSON.stringify(schemas[other]);
}

function withoutSuffix(name: string): string {
  return name.replace(/Input$/, "");
}

function namesUsedIn(root: unknown, schemas: Schemas): Set<string> {
  const used = new Set<string>();
  const visit = (value: unknown): void => {
    for (const [, name] of JSON.stringify(value).matchAll(/"\$ref":"#\/components\/schemas\/([^"]+)"/g)) {
      if (name === undefined || used.has(name)) continue;
      used.add(name);
      visit(schemas[name]);
    }
  };
  visit(root);
  return used;
}
