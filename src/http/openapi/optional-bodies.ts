interface RequestBody {
  readonly content: Record<string, { schema?: { type?: string; required?: string[] } }>;
}

/** Says that a body may be left out where none of its fields is required: the generator requires every body. */
export function optionalBodies<T extends object>(document: T): T {
  return JSON.parse(JSON.stringify(document), (key, value: unknown) =>
    key === "requestBody" && mayBeLeftOut(value as RequestBody)
      ? { ...(value as RequestBody), required: false }
      : value,
  ) as T;
}

function mayBeLeftOut({ content }: RequestBody): boolean {
  return Object.values(content).every(
    ({ schema }) => schema?.type === "object" && schema.required === undefined,
  );
}
