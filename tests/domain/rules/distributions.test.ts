import { describe, expect, test } from "vitest";
import { faultsOf } from "../faults-of.ts";
import { testRuleCases } from "../rule-cases.ts";
import { withChange } from "../with-change.ts";

const cost = "/overheads/0/cost";

testRuleCases("distributionFaults() wants parameters in order", [
  [
    cost,
    { kind: "uniform", low: 5, high: 5 },
    { kind: "uniform", low: 6, high: 5 },
    `${cost}/low  6  low is at most high`,
  ],
  [
    cost,
    { kind: "triangular", low: 5, mode: 5, high: 5 },
    { kind: "triangular", low: 6, mode: 5, high: 5 },
    `${cost}/low  6  low is at most high`,
  ],
  [
    cost,
    { kind: "pert", low: 10, mode: 20, high: 20 },
    { kind: "pert", low: 10, mode: 25, high: 20 },
    `${cost}/mode  25  mode is between low and high`,
  ],
  [
    cost,
    { kind: "triangular", low: 10, mode: 10, high: 20 },
    { kind: "triangular", low: 10, mode: 5, high: 20 },
    `${cost}/mode  5  mode is between low and high`,
  ],
  [
    cost,
    { kind: "pert", low: 10, mode: 15, high: 20, weight: 2 },
    { kind: "triangular", low: 10, mode: 15, high: 20, weight: 2 },
    `${cost}/weight  2  only a pert has a weight`,
  ],
  [
    cost,
    { kind: "percentiles", p10: 2, p50: 3, p90: 4, floor: 1.9 },
    { kind: "percentiles", p10: 2, p50: 3, p90: 4, floor: 2 },
    `${cost}/floor  2  the floor is below p10`,
  ],
  [
    cost,
    { kind: "percentiles", p10: 0.1, p50: 3, p90: 4 },
    { kind: "percentiles", p10: 0, p50: 3, p90: 4 },
    `${cost}/p10  0  p10 is above 0, the floor unless given`,
  ],
  [
    cost,
    { kind: "percentiles", p10: 2, p50: 3, p90: 4 },
    { kind: "percentiles", p10: 3, p50: 3, p90: 3 },
    `${cost}/p50  3  p50 is above p10`,
    `${cost}/p90  3  p90 is above p50`,
  ],
  [
    cost,
    { kind: "lognormal", p10: 2, p90: 3 },
    { kind: "lognormal", p10: 3, p90: 3 },
    `${cost}/p90  3  p90 is above p10`,
  ],
  [
    cost,
    { kind: "sample", values: [3, 1], weights: [1, 2] },
    { kind: "sample", values: [3, 1], weights: [1, 2, 3] },
    `${cost}/weights  3 weights  one weight for each of 2 values`,
  ],
  [
    cost,
    { kind: "sample", values: [3, 1], weights: [1, 2] },
    { kind: "sample", values: [3, 1], weights: [1] },
    `${cost}/weights  1 weight  one weight for each of 2 values`,
  ],
  [
    cost,
    { kind: "discrete", outcomes: [outcome(1, 0.1), outcome(2, 0.2), outcome(3, 0.7)] },
    { kind: "discrete", outcomes: [outcome(1, 0.25), outcome(2, 0.25)] },
    `${cost}/outcomes  0.5  the probabilities of the outcomes sum to 1`,
  ],
]);

testRuleCases("distributionFaults() wants no negative parameters of a cost", [
  [cost, 0, -1, `${cost}  -1  no negative cost`],
  [
    cost,
    { kind: "uniform", low: 0, high: 1 },
    { kind: "uniform", low: -2, high: 1 },
    `${cost}/low  -2  no negative cost`,
  ],
  [
    cost,
    { kind: "pert", low: 0, mode: 0, high: 1 },
    { kind: "pert", low: -2, mode: -1, high: 1 },
    `${cost}/low  -2  no negative cost`,
    `${cost}/mode  -1  no negative cost`,
  ],
  [
    cost,
    { kind: "percentiles", p10: 1, p50: 2, p90: 3, floor: 0 },
    { kind: "percentiles", p10: 1, p50: 2, p90: 3, floor: -1 },
    `${cost}/floor  -1  no negative cost`,
  ],
  [
    cost,
    { kind: "normal", mean: 0, sd: 5, atLeast: -3 },
    { kind: "normal", mean: -1, sd: 5 },
    `${cost}/mean  -1  no negative cost`,
  ],
  [
    cost,
    { kind: "sample", values: [0, 1] },
    { kind: "sample", values: [0, -1] },
    `${cost}/values/1  -1  no negative cost`,
  ],
  [
    cost,
    { kind: "discrete", outcomes: [outcome(0, 1)] },
    { kind: "discrete", outcomes: [outcome(-1, 1)] },
    `${cost}/outcomes/0/value  -1  no negative cost`,
  ],
]);

describe("distributionFaults() knows what each field is", () => {
  const operation = "/parts/0/routes/0/operations/0";
  const rework = "/parts/1/routes/0/purchase/outcomes/1/operations/0";
  const cannotBeNegative: [string, string][] = [
    ["/labour/shopRates/bodywork", "rate"],
    ["/labour/ownHoursPerWeek", "hours a week"],
    ["/shop/costRate", "rate"],
    ["/suppliers/0/batchCharge", "cost"],
    ["/suppliers/0/freightPerBatch", "cost"],
    ["/suppliers/0/leadWeeks", "weeks"],
    ["/wholeMachine/before/0/cost", "cost"],
    ["/wholeMachine/after/0/hours", "hours"],
    [`${operation}/cost`, "cost"],
    [`${operation}/hours`, "hours"],
    [`${operation}/leadWeeks`, "weeks"],
    [`${rework}/cost`, "cost"],
    ["/findings/0/cost", "cost"],
    ["/findings/0/hours", "hours"],
    ["/findings/0/leadWeeks", "weeks"],
    ["/overheads/1/shareOfListed", "share"],
    ["/overheads/2/shareOfPrice", "share"],
    ["/acquisition/extras/0/cost", "cost"],
    ["/acquisition/extras/1/shareOfPrice", "share"],
    ["/carrying/perMonth", "cost"],
    ["/value/selling/fixed", "cost"],
    ["/value/selling/months", "months"],
  ];
  testRuleCases(
    "not below 0",
    cannotBeNegative.map(([pointer, role]) => [pointer, 0.5, -1, `${pointer}  -1  no negative ${role}`]),
  );

  test.each([
    "/parts/0/routes/0/valueEffect",
    "/parts/0/ifUnresolved/valueEffect",
    "/value/finished",
    "/value/asIs",
    "/value/inPieces",
    "/value/parted",
    "/value/boughtFinished",
    "/paths/1/finished",
  ])("%s may be below 0, but not out of order", (pointer) => {
    expect(faultsOf(withChange(pointer, { kind: "uniform", low: -3, high: -2 }))).toEqual([]);
    expect(faultsOf(withChange(pointer, { kind: "uniform", low: -2, high: -3 }))).toEqual([
      `${pointer}/low  -2  low is at most high`,
    ]);
  });
});

testRuleCases("distributionFaults() wants draws that can be reckoned with", [
  [
    cost,
    { kind: "lognormal", p10: 1, p90: 100 },
    { kind: "lognormal", p10: 1e-9, p90: 1e9 },
    `${cost}  {"kind":"lognormal","p10":1e-9,"p90":1000000000}  every draw is within 1000000000000000 of 0`,
  ],
  [
    cost,
    { kind: "log-student", location: 5, scale: 0.5, freedom: 3 },
    { kind: "log-student", location: 25, scale: 10, freedom: 3 },
    `${cost}  {"kind":"log-student","location":25,"scale":10,"freedom":3}  every draw is within 1000000000000000 of 0`,
  ],
  [
    "/value/finished",
    { kind: "lognormal", mean: 1, sd: 1 },
    { kind: "lognormal", mean: 1e-300, sd: 1e9 },
    '/value/finished  {"kind":"lognormal","mean":1e-300,"sd":1000000000}  every draw is within 1000000000000000 of 0',
  ],
]);

test("distributionFaults() wants a share covered from which the ends follow", () => {
  const covering = (covers: number) =>
    withChange(cost, { kind: "triangular", low: 1, mode: 2, high: 3, covers });
  expect(faultsOf(covering(0.001))).toEqual([]);
  expect(faultsOf(covering(1e-9))).toEqual([expect.stringMatching(`^${cost}/covers  1e-9  .*covers 1e-9`)]);
});

const ownHours = "/labour/ownHoursPerWeek";
const idle = "above 0 in every draw: at least 1e-9 hours a week";

testRuleCases("distributionFaults() wants own hours a week above 0 in every draw", [
  [ownHours, 0.1, 0, `${ownHours}  0  ${idle}`],
  [
    ownHours,
    { kind: "sample", values: [8, 1] },
    { kind: "sample", values: [8, 0] },
    `${ownHours}  {"kind":"sample","values":[8,0]}  ${idle}`,
  ],
  [
    ownHours,
    { kind: "normal", mean: 8, sd: 1.2 },
    { kind: "normal", mean: 8, sd: 1.3 },
    `${ownHours}  {"kind":"normal","mean":8,"sd":1.3}  ${idle}`,
  ],
  [
    ownHours,
    { kind: "normal", mean: 8, sd: 3, atLeast: 1 },
    { kind: "normal", mean: 8, sd: 3, atLeast: 0 },
    `${ownHours}  {"kind":"normal","mean":8,"sd":3,"atLeast":0}  ${idle}`,
  ],
  [
    ownHours,
    { kind: "triangular", low: 5, mode: 8, high: 12, covers: 0.8 },
    { kind: "triangular", low: 0, mode: 8, high: 12, covers: 0.8 },
    `${ownHours}  {"kind":"triangular","low":0,"mode":8,"high":12,"covers":0.8}  ${idle}`,
  ],
]);

function outcome(value: number, probability: number) {
  return { value, probability };
}
