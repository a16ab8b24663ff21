import fc from "fast-check";
import { expect, test } from "vitest";
import { shownValue } from "../../src/domain/shown-value.ts";

test.each([
  [undefined, "nothing"],
  [null, "null"],
  [-0, "0"],
  [NaN, "NaN"],
  [-Infinity, "-Infinity"],
  [1e21, "1e+21"],
  ["two\nlines", '"two\\nlines"'],
  ["\u001b[31m\u009b\u202e", '"\\u001b[31m\\u009b\\u202e"'],
  [[], "[]"],
  [{}, "{}"],
  [{ a: [1, "b", { c: { d: { e: 1 } } }] }, '{"a":[1,"b",{"c":{…}}]}'],
  [Array.from({ length: 21 }, () => 1), `[${"1,".repeat(20)}…]`],
  [10n, "10"],
])("shownValue() writes %o", (value, text) => {
  expect(shownValue(value)).toBe(text);
});

test("shownValue() cuts what is long between characters", () => {
  expect(shownValue("\u{1f3cd}".repeat(1000))).toBe(`"${"\u{1f3cd}".repeat(40)}"`);
  expect(shownValue("x".repeat(1000))).toBe(`"${"x".repeat(78)}…`);
});

test("shownValue() writes anything in at most 80 characters on one line (property)", () => {
  fc.assert(
    fc.property(fc.anything({ withBigInt: true, withNullPrototype: true }), (value) => {
      const text = shownValue(value);
      expect([...text].length).toBeLessThanOrEqual(80);
      expect(text).not.toMatch(/[\p{Cc}\p{Cs}]/u);
    }),
  );
});
