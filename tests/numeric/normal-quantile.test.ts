import fc from "fast-check";
import { expect, test } from "vitest";
import { normalCdf } from "../../src/numeric/normal-cdf.ts";
import { normalQuantile } from "../../src/numeric/normal-quantile.ts";
import { score90 } from "../../src/numeric/score-90.ts";
import { expectRelative } from "./expect-close.ts";
import fixture from "./fixtures/functions.json" with { type: "json" };

// Published: mpmath at 50 digits, checked against SciPy's special.ndtri (fixtures/functions.py).
test("normalQuantile() reaches the precision of AS 241", () => {
  for (const [p, expected] of fixture.normalQuantile) {
    expectRelative(normalQuantile(p!), expected!, 2e-15, `normalQuantile(${p})`);
  }
});

test("normalQuantile() has the familiar points", () => {
  expect(normalQuantile(0.5)).toBe(0);
  expect(normalQuantile(0)).toBe(-Infinity);
  expect(normalQuantile(1)).toBe(Infinity);
  // JCGM 101:2008: the 97.5 % point (from memory: 1.959964); 1.2815515655446004 computed with SciPy.
  expect(normalQuantile(0.975)).toBeCloseTo(1.959964, 6);
  expectRelative(score90, 1.2815515655446004, 1e-15);
});

test("normalQuantile() refuses what is no probability", () => {
  for (const p of [-1e-9, 1.0000001, NaN, Infinity]) {
    expect(() => normalQuantile(p)).toThrow(expect.objectContaining({ code: "probability-out-of-range" }));
  }
});

// Property.
test("normalQuantile() undoes normalCdf()", () => {
  fc.assert(
    fc.property(fc.double({ min: 1e-300, max: 0.5, noNaN: true }), (p) => {
      // A relative error e of z moves Phi by z^2 e, relatively.
      expectRelative(normalCdf(normalQuantile(p)), p, 4e-15 * (1 + normalQuantile(p) ** 2));
    }),
    { numRuns: 1000 },
  );
});
