import fc from "fast-check";
import { expect, test } from "vitest";
import { fnv1a64 } from "../../src/numeric/fnv1a64.ts";

// Published: test vectors of Fowler, Noll & Vo's hash (64 bits, 1a).
test.each([
  ["", 0xcbf29ce4, 0x84222325],
  ["a", 0xaf63dc4c, 0x8601ec8c],
  ["foobar", 0x85944171, 0xf73967e8],
])("fnv1a64() of %j is the published one", (text, high, low) => {
  expect(fnv1a64(text)).toEqual([high, low]);
});

// Property: the definition written with big integers.
test("fnv1a64() by halves equals the definition in 64-bit arithmetic", () => {
  fc.assert(
    fc.property(fc.string({ unit: "binary-ascii", maxLength: 60 }), (text) => {
      let hash = 0xcbf29ce484222325n;
      for (const character of text) {
        hash = ((hash ^ BigInt(character.charCodeAt(0))) * 0x100000001b3n) & 0xffffffffffffffffn;
      }
      expect(fnv1a64(text)).toEqual([Number(hash >> 32n), Number(hash & 0xffffffffn)]);
    }),
  );
});
