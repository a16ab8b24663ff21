import fc from "fast-check";
import { expect, test } from "vitest";
import { fillIndependent } from "../../src/numeric/fill-independent.ts";
import { nextUint32 } from "../../src/numeric/next-uint32.ts";

const word = fc.integer({ min: 0, max: 0xffffffff });

// Property.
test("fillIndependent() writes the words of nextUint32() and leaves the state behind the last", () => {
  fc.assert(
    fc.property(fc.tuple(word, word, word, word), fc.nat(200), (start, count) => {
      const state = Uint32Array.from(start);
      const stepped = Uint32Array.from(start);
      const out = new Uint32Array(count);
      fillIndependent(state, out, count);
      expect([...out]).toEqual(Array.from({ length: count }, () => nextUint32(stepped)));
      expect(state).toEqual(stepped);
    }),
  );
});
