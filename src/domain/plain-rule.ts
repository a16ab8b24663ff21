import type { z } from "zod";

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
      return `at most ${issue.maximum}${unit(issue.origin)}`;
    case "too_small":
      return `at least ${issue.minimum}${unit(issue.origin)}`;
    case "unrecognized_keys":
      return "unknown field";
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

function unit(origin: string): string {
  return origin === "array" ? " entries" : origin === "string" ? " characters" : "";
}
