import { describe, expect, test } from "vitest";
import { faultsOf } from "../faults-of.ts";
import { testRuleCases } from "../rule-cases.ts";
import { withChange } from "../with-change.ts";

/** Every place where loadings may stand. */
const holders = [
  "/suppliers/0",
  "/wholeMachine/before/0",
  "/wholeMachine/after/0",
  "/parts/1/condition",
  "/parts/0/routes/0/operations/0",
  "/parts/0/routes/0/failure",
  "/parts/1/routes/0/purchase/outcomes/1/operations/0",
  "/findings/0",
  "/overheads/1",
  "/acquisition/extras/0",
  "/value",
];

describe.each(holders)("loadingFaults() looks at %s", (holder) => {
  const drivers = `${holder}/drivers`;
  testRuleCases("and wants known drivers and no excess", [
    [drivers, { pace: 1 }, { peace: 1 }, `${drivers}/peace  1  must name a driver of the document`],
    [
      drivers,
      { pace: 0.6, storage: -0.8 },
      { pace: 0.75, storage: -0.75 },
      `${drivers}  1.125  the squares of the loadings sum to at most 1`,
    ],
  ]);
});

test("loadingFaults() allows for rounding: the square root of a half, twice", () => {
  expect(faultsOf(withChange("/value/drivers", { pace: Math.SQRT1_2, storage: Math.SQRT1_2 }))).toEqual([]);
  expect(Math.SQRT1_2 * Math.SQRT1_2 * 2).toBeGreaterThan(1);
});
