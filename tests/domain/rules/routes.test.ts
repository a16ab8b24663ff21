import { testRuleCases } from "../rule-cases.ts";

const route = "/parts/0/routes/0";

testRuleCases("routeFaults() wants a failure that makes sense and one fitted route", [
  [
    `${route}/failure/after`,
    "strip",
    "weld",
    `${route}/failure/after  "weld"  must name an operation of the route`,
  ],
  [
    "/parts/1/routes/0/failure",
    undefined,
    { probability: 0.1, after: "order" },
    `/parts/1/routes/0/purchase  {"findsPerMonth":0.5,"patienceMonths":12,"tries":3,"judgedAfter":"verify","outc…` +
      "  a route has a failure or a purchase, not both",
  ],
  [
    "/parts/2/routes/1/state",
    "failed",
    "fitted",
    '/parts/2/routes/1/state  "fitted"  at most one route of a part is fitted',
  ],
]);
