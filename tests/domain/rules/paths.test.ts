import { testRuleCases } from "../rule-cases.ts";

const order = "/paths/1/routeOrder";

testRuleCases("pathFaults() wants parts and routes that exist", [
  [
    order,
    { frame: ["repair"], lid: [] },
    { engine: ["repair"] },
    `${order}/engine  ["repair"]  must name a part of the document, which engine is not`,
  ],
  [order, { lid: ["leave"] }, { lid: ["coat"] }, `${order}/lid/0  "coat"  must name a route of the part lid`],
  [
    order,
    { lid: ["leave", "hunt"] },
    { lid: ["leave", "hunt", "leave"] },
    `${order}/lid/2  "leave"  a route stands once in an order`,
  ],
  [
    "/paths/1/leaveOut",
    ["frame", "lid"],
    ["frame", "engine"],
    '/paths/1/leaveOut/1  "engine"  must name a part of the document',
  ],
]);
