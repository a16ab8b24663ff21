import fc from "fast-check";
import { describe, expect, test } from "vitest";
import type { EstimateResult } from "../../src/domain/estimate-result.ts";
import { simulate, simulation } from "../../src/simulation/simulate.ts";
import { generatedDocument } from "./plain/generated-document.ts";
import { moneyScaled } from "./money-scaled.ts";
import { cases, documentSeeds } from "./properties.ts";
import { numbersIn } from "./walk-result.ts";

const factor = 2;
const draws = 96;

const money =
  /^\/(sumOfTypicals|restoration|carrying|allIn|budget|value|ceiling|lines|suppliers|curve|firmUpFirst\/(width|operations)|sensitivity\/(cash|gap)\/\d+\/(lowest|highest|absent|present))/;
const pureNumbers = /probability|risk|recovery|varianceShare|departures/i;
const isMoney = (pointer: string) => money.test(pointer) && !pureNumbers.test(pointer);

function expectScaled(one: EstimateResult, two: EstimateResult): void {
  const doubled = new Map(numbersIn(two).map(({ pointer, value }) => [pointer, value]));
  for (const { pointer, value } of numbersIn(one)) {
    const expected = isMoney(pointer) ? value * factor : value;
    // Relative, of the figure itself; standard errors and differences of large sums lose a few digits more.
    const tolerance = 1e-9 * Math.max(1, Math.abs(expected));
    expect(
      Math.abs(doubled.get(pointer)! - expected),
      `${pointer}: ${doubled.get(pointer)} for ${expected}`,
    ).toBeLessThan(tolerance);
  }
  expect(doubled.size).toBe(numbersIn(one).length);
}

// Property. A power of two scales every product and sum exactly; what is left is the rounding of tables that are built
// from logarithms (lognormal, percentiles, log-student), about 1e-14 of a value, allowed at 1e-9.
describe("scaling all money by 2", () => {
  test("scales every figure that is money by 2 and leaves every other alone", () => {
    fc.assert(
      fc.property(documentSeeds, (seed) => {
        const document = generatedDocument(seed);
        expectScaled(simulate(document, { draws }), simulate(moneyScaled(document, factor), { draws }));
      }),
      cases(60),
    );
  });

  test("leaves weeks and hours alone, bit for bit", () => {
    fc.assert(
      fc.property(documentSeeds, (seed) => {
        const document = generatedDocument(seed);
        const one = simulation(document, { draws }).outcomes;
        const two = simulation(moneyScaled(document, factor), { draws }).outcomes;
        for (const name of ["weeks", "ownHours", "shopHours"] as const) {
          expect(one[name].findIndex((value, draw) => !Object.is(value, two[name][draw]))).toBe(-1);
        }
      }),
      cases(60),
    );
  });
});
