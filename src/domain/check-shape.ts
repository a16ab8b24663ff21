import type { z } from "zod";
import type { Fault } from "./fault.ts";
import { plainRule } from "./plain-rule.ts";
import { zodFaults } from "./zod-faults.ts";

/**
 * Checks a value against a schema.
 *
 * @param schema the definition
 * @param input anything
 * @returns the value as the schema types it, or every fault
 */
export function checkShape<T>(schema: z.ZodType<T>, input: unknown): { value: T } | { faults: Fault[] } {
  const parsed = schema.safeParse(input, { error: plainRule });
  return parsed.success ? { value: parsed.data } : { faults: zodFaults(parsed.error, input) };
}
