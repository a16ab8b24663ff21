import { expect, test } from "vitest";
import { threefry2x32 } from "../../src/numeric/threefry2x32.ts";

// Published: Salmon et al. 2011, the known answers of Random123 for 20 rounds.
test.each([
  [0, 0, 0, 0, 0x6b200159, 0x99ba4efe],
  [0xffffffff, 0xffffffff, 0xffffffff, 0xffffffff, 0x1cb996fc, 0xbb002be7],
  [0x243f6a88, 0x85a308d3, 0x13198a2e, 0x03707344, 0xc4923a9c, 0x483df7a0],
])("threefry2x32() gives the known answer of counter %i %i under key %i %i", (c0, c1, k0, k1, a, b) => {
  const out = new Uint32Array(2);
  threefry2x32(c0, c1, k0, k1, out);
  expect([...out]).toEqual([a, b]);
});
