import fc from "fast-check";
import { describe, expect, test } from "vitest";
import {
  decimalsOf,
  formatExact,
  formatFigure,
  formatRounded,
  formatRoundedDown,
  honestStep,
} from "../../src/documents/honest-figure.ts";

const figure = (value: number, standardError: number) => ({ value, standardError });

describe("honestStep()", () => {
  test.each([
    [15_117, 12, 100],
    [15_117, 180, 200],
    [15_117, 201, 500],
    [15_117, 1_000, 1_000],
    [5_712, 40, 50],
    [940, 1, 1],
    [0, 40, 50],
    [-5_712, 40, 50],
    [3, 0.001, 1],
  ])("shows %d with a standard error of %d in steps of %d", (value, standardError, step) => {
    expect(honestStep(figure(value, standardError), 1)).toBe(step);
  });

  test("leaves a figure without error alone", () => {
    expect(honestStep(figure(15_117.43, 0), 1)).toBeUndefined();
  });

  // Property. The bounds leave out errors whose ratio to the step is lost in rounding.
  test("is never finer than the standard error and at most ten times coarser than needed", () => {
    const amount = fc.double({ min: -1e9, max: 1e9, noNaN: true });
    const error = fc.double({ min: 1e-6, max: 1e6, noNaN: true });
    fc.assert(
      fc.property(amount, error, (value, standardError) => {
        const step = honestStep(figure(value, standardError), 1) ?? 0;
        expect(step).toBeGreaterThanOrEqual(standardError * (1 - 1e-9));
        expect(step).toBeLessThanOrEqual(
          Math.max(2.5 * standardError, Math.abs(value) / 100, 1) * (1 + 1e-9),
        );
      }),
    );
  });
});

describe("formatFigure()", () => {
  test.each([
    [15_117.4, 12, "15,100"],
    [15_151, 12, "15,200"],
    [-3_204, 30, "-3,200"],
    [-20, 100, "0"],
    [1_234_567, 1, "1,230,000"],
    [232.5, 0, "232.50"],
    [232, 0, "232"],
    [1e9, 0, "1,000,000,000"],
  ])("writes %d with a standard error of %d as %s", (value, standardError, written) => {
    expect(formatFigure(figure(value, standardError), 2)).toBe(written);
  });

  // Property.
  test("is off by at most half a step", () => {
    const amount = fc.double({ min: -1e8, max: 1e8, noNaN: true });
    fc.assert(
      fc.property(amount, fc.double({ min: 0.01, max: 1e5, noNaN: true }), (value, standardError) => {
        const measured = figure(value, standardError);
        const written = Number(formatFigure(measured, 2).replaceAll(",", ""));
        expect(Math.abs(written - value)).toBeLessThanOrEqual((honestStep(measured, 1) ?? 0) / 2 + 0.5);
      }),
    );
  });
});

test("formatRoundedDown() never shows a limit higher than it is", () => {
  expect(formatRoundedDown(figure(899, 40), 2)).toBe("850");
  expect(formatRoundedDown(figure(899.5, 0), 2)).toBe("899.50");
});

test("formatRounded() writes no minus before nothing", () => {
  expect(formatRounded(-0.4, 1)).toBe("0");
});

test("formatExact() shows decimals of what is not whole", () => {
  expect([0.1 + 0.2, 5, -1_000.5].map((value) => formatExact(value, 2))).toEqual(["0.30", "5", "-1,000.50"]);
});

// Source: ISO 4217, minor units.
test.each([
  ["USD", 2],
  ["JPY", 0],
  ["KWD", 3],
  ["XQX", 2],
])("decimalsOf() knows that %s has %i", (currency, decimals) => {
  expect(decimalsOf(currency)).toBe(decimals);
});
