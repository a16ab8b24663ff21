import type { z } from "zod";
import { counted } from "./counted.ts";

/** The rule that a field breaks which the format does not have. */
export const unknownField = "unknown field";

const names: Readonly<Record<string, string>> = {
  string: "text",
  number: "a number",
  int: "a whole number",
  boolean: "true or false",
  array: "a list",
  object: "an object",
  record: "an object",
};

/**
 * Says which rule an issue breaks, where the schema does not say it itself.
 *
 * @param issue what a schema found
 * @returns a plain sentence
 */
export function plainRule(issue: z.core.$ZodRawIssue): string {
  switch (issue.code) {
    case "invalid_type":
      return `must be ${names[issue.expected] ?? issue.expected}`;
    case "invalid_value":
      return oneOf(issue.values);
    case "too_big":
      return `at most ${amount(issue.maximum, issue.origin)}`;
    case "too_small":
      return `at least ${amount(issue.minimum, issue.origin)}`;
    case "unrecognized_keys":
      return unknownField;
    case "invalid_union":
      return Array.isArray(issue["options"]) ? oneOf(issue["options"]) : "none of the allowed forms";
    default:
      return "not allowed here";
  }
}

/**
 * Says which values are allowed.
 *
 * @param values one or more
 */
export function oneOf(values: readonly unknown[]): string {
  const [first, ...more] = values.map(String);
  return more.length === 0 ? `must be ${first}` : `one of ${[first, ...more].join(", ")}`;
}

function amount(limit: number | bigint, origin: string): string {
  if (origin === "array") return counted(limit, "entry", "entries");
  return origin === "string" ? counted(limit, "character") : String(limit);
}
