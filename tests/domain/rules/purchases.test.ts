import { nothing } from "../with-change.ts";
import { testRuleCases } from "../rule-cases.ts";

const purchase = "/parts/1/routes/0/purchase";
const outcomes = `${purchase}/outcomes`;
const shown = `[{"id":"dress","name":"Dress","trade":"bodywork","hours":1,"by":"shop"},{"id":"…`;

testRuleCases("purchaseFaults() wants a purchase that makes sense", [
  [
    `${purchase}/findsPerMonth`,
    1e-6,
    nothing,
    `${purchase}/patienceMonths  12  patienceMonths needs findsPerMonth`,
  ],
  [
    `${purchase}/judgedAfter`,
    "order",
    "dress",
    `${purchase}/judgedAfter  "dress"  must name an operation of the route`,
  ],
  [`${outcomes}/0/probability`, 0.5, 0.75, `${outcomes}  1.25  the probabilities of the outcomes sum to 1`],
  [
    `${outcomes}/1/result`,
    "rework",
    "right",
    `${outcomes}/1/operations  ${shown}  only a rework has operations`,
  ],
  [
    `${outcomes}/2/result`,
    "useless",
    "right",
    `${outcomes}/2/recovers  0.5  only what is useless recovers anything`,
  ],
]);
