import { expect, test } from "vitest";
import { nextUint32 } from "../../src/numeric/next-uint32.ts";

// Published: the first words of xoshiro128** (Blackman & Vigna) from state 1 2 3 4.
test("nextUint32() gives the reference sequence of xoshiro128**", () => {
  const state = Uint32Array.of(1, 2, 3, 4);
  expect(Array.from({ length: 8 }, () => nextUint32(state))).toEqual([
    11520, 0, 5927040, 70819200, 2031721883, 1637235492, 1287239034, 3734860849,
  ]);
});
