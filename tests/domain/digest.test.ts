import { createHash } from "node:crypto";
import fc from "fast-check";
import { expect, test } from "vitest";
import { digestOf } from "../../src/domain/digest.ts";

const sha256 = (bytes: Buffer) => createHash("sha256").update(bytes).digest("hex");

// Published: RFC 8785, sections 3.2.2 (input) and 3.2.4 (bytes of its canonical form).
test("digestOf() hashes the canonical form of the example of RFC 8785", () => {
  const input = `{
    "numbers": [333333333.33333329, 1E30, 4.50, 2e-3, 0.000000000000000000000000001],
    "string": "\\u20ac$\\u000F\\u000aA'\\u0042\\u0022\\u005c\\\\\\"\\/",
    "literals": [null, true, false]
  }`;
  const canonical = `
    7b 22 6c 69 74 65 72 61 6c 73 22 3a 5b 6e 75 6c 6c 2c 74 72 75 65 2c 66 61 6c 73 65 5d 2c 22 6e
    75 6d 62 65 72 73 22 3a 5b 33 33 33 33 33 33 33 33 33 2e 33 33 33 33 33 33 33 2c 31 65 2b 33 30
    2c 34 2e 35 2c 30 2e 30 30 32 2c 31 65 2d 32 37 5d 2c 22 73 74 72 69 6e 67 22 3a 22 e2 82 ac 24
    5c 75 30 30 30 66 5c 6e 41 27 42 5c 22 5c 5c 5c 5c 5c 22 2f 22 7d`;
  expect(digestOf(JSON.parse(input))).toBe(sha256(Buffer.from(canonical.replaceAll(/\s/g, ""), "hex")));
});

// Published: RFC 8785, section 3.2.3, the order of its sorting example, by UTF-16 code units.
test("digestOf() sorts fields as RFC 8785 does", () => {
  const sorted = ["\r", "1", "\u0080", "\u00f6", "\u20ac", "\u{1f600}", "\ufb33"];
  const shuffled = ["\u20ac", "\r", "\ufb33", "1", "\u{1f600}", "\u0080", "\u00f6"];
  const text = `{${sorted.map((name) => `${JSON.stringify(name)}:0`).join(",")}}`;
  const value = Object.fromEntries(shuffled.map((name) => [name, 0]));
  expect(digestOf(value)).toBe(sha256(Buffer.from(text, "utf8")));
});

// Published: SHA-256 of the two bytes `{}`, computed with GNU coreutils sha256sum.
test("digestOf() of an empty object is the known answer", () => {
  expect(digestOf({})).toBe("44136fa355b3678a1146ad16f7e8649e94fb4fc21fe77e8310c060f61caaff8a");
});

test("digestOf() does not depend on the order of fields or on absent ones (property)", () => {
  fc.assert(
    fc.property(fc.dictionary(fc.string(), fc.jsonValue()), (value) => {
      const reversed = Object.fromEntries([...Object.entries(value).reverse(), ["absent", undefined]]);
      expect(digestOf({ ...reversed, absent: value["absent"] })).toBe(digestOf(value));
    }),
  );
});

test("digestOf() tells different values apart", () => {
  const digests = [{ a: 1 }, { a: "1" }, { a: [1] }, { b: 1 }, [1], null].map(digestOf);
  expect(new Set(digests).size).toBe(digests.length);
});

test("digestOf() refuses what has no JSON", () => {
  expect(() => digestOf(undefined)).toThrow("no JSON for a value of type undefined");
});
