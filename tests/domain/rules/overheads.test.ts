import { testRuleCases } from "../rule-cases.ts";

const rule = "exactly one of cost, shareOfPrice, shareOfListed";
const named = { id: "freight", name: "Freight" };

testRuleCases("overheadFaults() wants one size for each", [
  ["/overheads/0", { ...named, cost: 1 }, named, `/overheads/0  none  ${rule}`],
  [
    "/overheads/0",
    { ...named, shareOfPrice: 0.1 },
    { ...named, cost: 1, shareOfPrice: 0.1 },
    `/overheads/0  cost and shareOfPrice  ${rule}`,
  ],
  ["/acquisition/extras/0", { ...named, cost: 1 }, named, `/acquisition/extras/0  none  ${rule}`],
  [
    "/acquisition/extras/0",
    { ...named, shareOfPrice: 0.1 },
    { ...named, shareOfListed: 0.1 },
    "/acquisition/extras/0/shareOfListed  0.1  an extra of the purchase has no shareOfListed",
  ],
]);
