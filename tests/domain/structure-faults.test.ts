import { describe, expect, test } from "vitest";
import { structureFaults } from "../../src/domain/structure-faults.ts";
import { baseDocument } from "./base-document.ts";
import { faultsOf } from "./faults-of.ts";
import { testRuleCases } from "./rule-cases.ts";

const note = "/parts/0/note";

testRuleCases("structureFaults() refuses what cannot be stored", [
  [
    note,
    "line one\nline two\t\u{1f3cd}",
    "a\u0000b",
    `${note}  "a\\u0000b"  text cannot hold the character U+0000`,
  ],
  [note, "\u{1f3cd}", "\ud83c", `${note}  "\\ud83c"  text cannot hold half of a surrogate pair`],
  [note, "\u{1f3cd}", "\udfcd\ud83c", `${note}  "\\udfcd\\ud83c"  text cannot hold half of a surrogate pair`],
  ["/taxPercent", 20, NaN, "/taxPercent  NaN  must be a finite number"],
  ["/taxPercent", 20, Infinity, "/taxPercent  Infinity  must be a finite number"],
]);

describe("structureFaults() on parsed JSON", () => {
  const text = JSON.stringify(baseDocument());
  const withText = (from: string, to: string): unknown => {
    expect(text.includes(from)).toBe(true);
    return JSON.parse(text.replace(from, to));
  };

  test("refuses a number beyond all numbers", () => {
    expect(faultsOf(withText('"acceptableNetCost":4000', '"acceptableNetCost":1e999'))).toEqual([
      "/acceptableNetCost  Infinity  must be a finite number",
    ]);
    expect(faultsOf(withText('"mean":-900', '"mean":-1e999'))).toEqual([
      "/parts/0/ifUnresolved/valueEffect/mean  -Infinity  must be a finite number",
    ]);
  });

  test.each(["__proto__", "constructor", "prototype"])(
    "refuses a field called %s and touches no prototype",
    (name) => {
      const rule = `no field may be called ${name}`;
      const evil = `"${name}":{"isAdmin":true},`;
      expect(faultsOf(withText('"title":', `${evil}"title":`))).toEqual([
        `/${name}  {"isAdmin":true}  ${rule}`,
      ]);
      expect(faultsOf(withText('"powder":0.6', `"${name}":0.6`))).toEqual([
        `/parts/0/routes/0/operations/2/drivers/${name}  0.6  ${rule}`,
      ]);
      expect(faultsOf(withText('"poor":0.25', `"${name}":0.25`))).toEqual([
        `/parts/1/condition/odds/${name}  0.25  ${rule}`,
      ]);
      expect(({} as Record<string, unknown>)["isAdmin"]).toBeUndefined();
      expect(Object.keys(Object.prototype)).toEqual([]);
    },
  );

  test("survives nesting of any depth", () => {
    const lists = "[".repeat(100_000) + "]".repeat(100_000);
    const rule = "at most 32 levels of nesting";
    expect(faultsOf(JSON.parse(lists))).toEqual([`${"/0".repeat(32)}  [[[[…]]]]  ${rule}`]);
    const objects = '{"a":'.repeat(100_000) + "1" + "}".repeat(100_000);
    expect(faultsOf(JSON.parse(objects))).toEqual([`${"/a".repeat(32)}  {"a":{"a":{"a":{…}}}}  ${rule}`]);
  });
});

test("structureFaults() allows 32 levels, the document itself the first, and no more", () => {
  const nested = (levels: number): unknown => (levels === 0 ? 5 : [nested(levels - 1)]);
  expect(structureFaults(nested(32))).toEqual([]);
  expect(structureFaults(nested(33))).toHaveLength(1);
});

test("structureFaults() allows 500,000 values and no more", () => {
  const list = Array.from({ length: 499_999 }, () => 1);
  expect(structureFaults(list)).toEqual([]);
  expect(structureFaults([...list, 1])).toEqual([
    { pointer: "", value: "500001 values or more", rule: "at most 500000 values, lists and objects" },
  ]);
});

test("structureFaults() refuses field names that cannot be shown", () => {
  const rule = "a field name has at most 200 characters, none of them a control";
  expect(structureFaults({ a: { ["x".repeat(200)]: 1, "\u0000": 1, "\ud83c": NaN } })).toEqual([
    { pointer: "/a", value: '"\\u0000"', rule },
    { pointer: "/a", value: '"\\ud83c"', rule },
  ]);
  expect(structureFaults({ ["x".repeat(201)]: 1 })).toHaveLength(1);
});

test("structureFaults() finds every fault, in document order", () => {
  expect(
    structureFaults([NaN, { a: "\u0000", prototype: 1 }, [Infinity]]).map(({ pointer }) => pointer),
  ).toEqual(["/0", "/1/prototype", "/1/a", "/2/0"]);
});
