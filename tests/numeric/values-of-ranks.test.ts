import fc from "fast-check";
import { expect, test } from "vitest";
import { valuesOfRanks } from "../../src/numeric/values-of-ranks.ts";

// Property: every rank at once is the sorted column.
test("valuesOfRanks() of all ranks sorts", () => {
  const column = fc.array(fc.integer({ min: -50, max: 50 }), { minLength: 1, maxLength: 300, size: "max" });
  fc.assert(
    fc.property(column, (numbers) => {
      const found = valuesOfRanks(
        Float64Array.from(numbers),
        numbers.map((_, rank) => rank),
      );
      expect(found).toEqual(numbers.toSorted((a, b) => a - b));
    }),
  );
});
