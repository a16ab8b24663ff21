import fc from "fast-check";
import { expect, test } from "vitest";
import { polynomial } from "../../src/numeric/polynomial.ts";

// Property: whole numbers small enough for both ways of summing to be exact.
test("polynomial() is the sum of its terms, highest power first", () => {
  const whole = fc.integer({ min: -9, max: 9 });
  fc.assert(
    fc.property(fc.array(whole, { minLength: 1, maxLength: 8 }), whole, (coefficients, x) => {
      const terms = coefficients.map((of, place) => of * x ** (coefficients.length - 1 - place));
      expect(polynomial(coefficients, x) - terms.reduce((sum, term) => sum + term, 0)).toBe(0);
    }),
  );
});
