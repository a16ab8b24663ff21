import { nothing } from "../with-change.ts";
import { testRuleCases } from "../rule-cases.ts";

testRuleCases("findingFaults() wants parts and routes that exist", [
  ["/findings/1/part", "tank", "engine", '/findings/1/part  "engine"  must name a part of the document'],
  [
    "/findings/0/part",
    "frame",
    nothing,
    '/findings/0/onRoutes  ["coat"]  onRoutes needs a part',
    '/findings/0/rulesOut  ["repair"]  rulesOut needs a part',
  ],
  [
    "/findings/0/onRoutes",
    ["coat", "repair"],
    ["coat", "hunt"],
    '/findings/0/onRoutes/1  "hunt"  must name a route of the part frame',
  ],
  [
    "/findings/0/rulesOut",
    [],
    ["leave"],
    '/findings/0/rulesOut/0  "leave"  must name a route of the part frame',
  ],
]);
