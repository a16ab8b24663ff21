import { expect, test } from "vitest";
import { faultsOf } from "./faults-of.ts";
import { withChange } from "./with-change.ts";

/** One place of the base document, a value that keeps the rule, one that breaks it, and the faults that must follow. */
export type RuleCase = readonly [pointer: string, good: unknown, bad: unknown, ...faults: string[]];

/**
 * Tests that each good value passes and each bad one gives exactly the faults named.
 *
 * @param subject the function and what it does
 */
export function testRuleCases(subject: string, cases: readonly RuleCase[]): void {
  test.each(cases)(`${subject}: %s, %j but not %j`, (pointer, good, bad, ...faults) => {
    expect(faultsOf(withChange(pointer, good))).toEqual([]);
    expect(faultsOf(withChange(pointer, bad))).toEqual(faults);
  });
}
