import { testRuleCases } from "../rule-cases.ts";

const odds = "/parts/1/condition/odds";

testRuleCases("conditionFaults() wants odds that sum to 1", [
  [
    odds,
    { sound: 0.1, tired: 0.2, poor: 0.7 },
    { sound: 0.5, tired: 0.25 },
    `${odds}  0.75  the odds sum to 1`,
  ],
  [odds, { missing: 1 }, {}, `${odds}  0  the odds sum to 1`],
  [
    odds,
    { sound: 1 / 3, tired: 2 / 3 },
    { sound: 0.5, tired: 0.50001 },
    `${odds}  1.00001  the odds sum to 1`,
  ],
]);
