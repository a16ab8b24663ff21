import { testRuleCases } from "../rule-cases.ts";

const owners = "/parts/0/routes/0/operations/0";
const blast = "/parts/0/routes/0/operations/1";

testRuleCases("supplierFaults() wants work at suppliers that exist and take it", [
  [
    `${blast}/supplier`,
    "coater",
    "baker",
    `${blast}/supplier  "baker"  must name a supplier of the document`,
  ],
  [`${owners}/lot`, undefined, "black", `${owners}/lot  "black"  a lot needs a supplier`],
  [
    "/wholeMachine/before/0/supplier",
    undefined,
    "coater",
    '/wholeMachine/before/0/by  "owner"  owner\'s hours cannot be at a supplier',
  ],
  [
    "/parts/1/routes/0/purchase/outcomes/1/operations/0/supplier",
    "coater",
    "cutter",
    '/parts/1/routes/0/purchase/outcomes/1/operations/0/supplier  "cutter"  must name a supplier of the document',
  ],
]);
