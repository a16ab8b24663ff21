import { describe, expect, test } from "vitest";
import { z } from "zod";
import { estimateDocumentSchema } from "../../src/domain/estimate-document.ts";
import { baseDocument } from "./base-document.ts";

const jsonSchema = z.toJSONSchema(estimateDocumentSchema, { target: "draft-2020-12" });

/** Every field name that a JSON Schema declares, and every value of a field that must have one value. */
function declared(schema: unknown): string[] {
  if (typeof schema !== "object" || schema === null) return [];
  const { properties, const: only } = schema as { properties?: object; const?: unknown };
  const names = [...Object.keys(properties ?? {}), ...(typeof only === "string" ? [only] : [])];
  return [...names, ...Object.values(schema).flatMap(declared)];
}

function written(value: unknown): string[] {
  if (typeof value !== "object" || value === null) return typeof value === "string" ? [value] : [];
  return [...(Array.isArray(value) ? [] : Object.keys(value)), ...Object.values(value).flatMap(written)];
}

describe("the JSON Schema of a document", () => {
  test("is draft 2020-12 and names its parts", () => {
    expect(jsonSchema.$schema).toBe("https://json-schema.org/draft/2020-12/schema");
    expect(Object.keys(jsonSchema.$defs ?? {})).toEqual(
      expect.arrayContaining([
        "EstimateDocument",
        "Part",
        "Route",
        "Operation",
        "Uncertain",
        "Finding",
        "Loadings",
      ]),
    );
  });

  test("refuses unknown fields wherever fields are declared", () => {
    const open: unknown[] = [];
    const visit = (schema: unknown): void => {
      if (typeof schema !== "object" || schema === null) return;
      if (
        "properties" in schema &&
        (schema as { additionalProperties?: unknown }).additionalProperties !== false
      ) {
        open.push(schema);
      }
      Object.values(schema).forEach(visit);
    };
    visit(jsonSchema);
    expect(open).toEqual([]);
  });

  test("declares no field and no distribution that the base document of these tests leaves out", () => {
    const used = new Set(written(baseDocument()));
    expect([...new Set(declared(jsonSchema))].filter((name) => !used.has(name))).toEqual([]);
  });
});
