import { expect, test } from "vitest";
import { faultsOf } from "../faults-of.ts";
import { testRuleCases } from "../rule-cases.ts";
import { nothing, withChanges } from "../with-change.ts";

const noRate = (pointer: string, trade: string) =>
  `${pointer}/trade  "${trade}"  a shop's hours need a rate: labour.shopRates has none of ${trade}`;
const weld = "/parts/0/routes/1/operations/0";
const rework = "/parts/1/routes/0/purchase/outcomes/1/operations/0";

testRuleCases("labourFaults() wants hands and rates for hours", [
  ["/wholeMachine/after/1/by", "owner", nothing, "/wholeMachine/after/1/by  nothing  required with hours"],
  [`${weld}/by`, "shop", nothing, `${weld}/by  nothing  required with hours`],
  [`${rework}/by`, "owner", nothing, `${rework}/by  nothing  required with hours`],
  ["/findings/0/by", "owner", nothing, "/findings/0/by  nothing  required with hours"],
  [`${weld}/trade`, "mechanical", "wheels", noRate(weld, "wheels")],
  [`${rework}/trade`, "mechanical", "wheels", noRate(rework, "wheels")],
  ["/findings/0/trade", "mechanical", "wheels", noRate("/findings/0", "wheels")],
  ["/wholeMachine/before/0/by", "shop", nothing, "/wholeMachine/before/0/by  nothing  required with hours"],
]);

test("labourFaults() asks no rate for what is done, unless it may be done again in another try", () => {
  const shops = { id: "old", name: "Old work", trade: "upholstery", hours: 2, by: "shop" };
  const route = "/parts/2/routes/1/operations/0";
  expect(faultsOf(withChanges([route, { ...shops, state: "done" }]))).toEqual([]);
  expect(faultsOf(withChanges([route, shops]))).toEqual([noRate(route, "upholstery")]);
  const bought = "/parts/1/routes/0/operations/2";
  expect(faultsOf(withChanges([bought, { ...shops, state: "done" }]))).toEqual([
    noRate(bought, "upholstery"),
  ]);
});
