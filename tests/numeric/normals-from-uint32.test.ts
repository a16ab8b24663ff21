import fc from "fast-check";
import { expect, test } from "vitest";
import { normalQuantile } from "../../src/numeric/normal-quantile.ts";
import { normalsFromUint32 } from "../../src/numeric/normals-from-uint32.ts";
import { drawScores } from "./draw.ts";
import { expectWithin } from "./expect-close.ts";

const whole = 0x100000000;

function scoresOf(...words: number[]): Float64Array {
  const out = new Float64Array(words.length);
  normalsFromUint32(Uint32Array.from(words), out, words.length);
  return out;
}

/** Words of every size, not just large ones. */
const word = fc
  .tuple(fc.nat(31), fc.integer({ min: 0, max: 0xffffffff }))
  .map(([shift, bits]) => bits >>> shift);

// Property: the bound stated on the function.
test("normalsFromUint32() errs by at most 8.1e-7 from the normal quantile of (b + 1/2) / 2^32", () => {
  fc.assert(
    fc.property(word, (b) => {
      expectWithin(scoresOf(b)[0]!, normalQuantile((b + 0.5) / whole), 8.1e-7, `word ${b}`);
    }),
    { numRuns: 5000 },
  );
});

// Property.
test("normalsFromUint32() is exactly antisymmetric about the middle", () => {
  fc.assert(
    fc.property(word, (b) => {
      const [below, above] = scoresOf(b, 0xffffffff - b);
      expect(above).toBe(-below!);
    }),
  );
});

// Property: neighbours, and words at every cell border.
test("normalsFromUint32() never falls as the word rises", () => {
  const borders = Array.from({ length: 8192 }, (_, cell) => {
    const scale = 2 ** (cell >> 8);
    return Math.floor(scale * (1 + (cell & 255) / 256)) >>> 0;
  });
  for (const b of borders) {
    const [before, at, after] = scoresOf(Math.max(0, b - 1), b, Math.min(0xffffffff, b + 1));
    expect(before! <= at! && at! <= after!, `word ${b}`).toBe(true);
  }
  fc.assert(
    fc.property(word, word, (a, b) => {
      const [low, high] = scoresOf(Math.min(a, b), Math.max(a, b));
      expect(low! <= high!).toBe(true);
    }),
  );
});

test("normalsFromUint32() ends at the quantiles of 2^-33 and 1 - 2^-33", () => {
  const [least, greatest] = scoresOf(0, 0xffffffff);
  // Published: special.ndtri(2**-33) computed with SciPy.
  expectWithin(least!, -6.3379577545537895, 1e-14);
  expect(greatest).toBe(-least!);
  expect(greatest).toBeLessThan(6.34);
});

// Statistical, fixed seed. Moments of a standard normal; the standard error of the k-th is sqrt((m2k - mk^2) / n):
// 1, sqrt 2, sqrt 15, sqrt 96 over sqrt n. Tolerance: 5 of them.
test("normalsFromUint32() of independent words has the moments of a standard normal", () => {
  const draws = 400_000;
  const scores = drawScores("moments", draws);
  const moment = (power: number) => scores.reduce((sum, score) => sum + score ** power, 0) / draws;
  const unit = 5 / Math.sqrt(draws);
  expectWithin(moment(1), 0, unit);
  expectWithin(moment(2), 1, unit * Math.sqrt(2));
  expectWithin(moment(3), 0, unit * Math.sqrt(15));
  expectWithin(moment(4), 3, unit * Math.sqrt(96));
});
