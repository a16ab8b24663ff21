import { expect, test } from "vitest";
import { shownValue } from "../../src/domain/shown-value.ts";
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
  for (const [pointer, good, bad, ...faults] of cases) {
    test(`${subject}: ${pointer}, ${shownValue(good)} but not ${shownValue(bad)}`, () => {
      expect(faultsOf(withChange(pointer, good))).toEqual([]);
      expect(faultsOf(withChange(pointer, bad))).toEqual(faults);
    });
  }
}
