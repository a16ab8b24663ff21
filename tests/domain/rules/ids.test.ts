import { testRuleCases } from "../rule-cases.ts";

const used = (pointer: string, id: string, earlier: string) =>
  `${pointer}  "${id}"  an id stands once in its list: also at ${earlier}`;

testRuleCases("idFaults() wants ids unique in their list", [
  [
    "/drivers/1/id",
    "powder",
    "pace",
    used("/drivers/1/id", "pace", "/drivers/0/id"),
    ...undeclared("powder"),
  ],
  ["/findings/1/id", "stud", "rust-through", used("/findings/1/id", "rust-through", "/findings/0/id")],
  ["/overheads/2/id", "duty", "unlisted", used("/overheads/2/id", "unlisted", "/overheads/1/id")],
  ["/paths/1/id", "tidy", "as-planned", used("/paths/1/id", "as-planned", "/paths/0/id")],
  [
    "/acquisition/extras/1/id",
    "consumables",
    "collection",
    used("/acquisition/extras/1/id", "collection", "/acquisition/extras/0/id"),
  ],
  [
    "/suppliers/-",
    { id: "plater", name: "Plater", trade: "plating" },
    { id: "coater", name: "Another", trade: "plating" },
    used("/suppliers/1/id", "coater", "/suppliers/0/id"),
  ],
  [
    "/parts/-",
    { id: "badge", name: "Badge", class: "badge", condition: { band: "missing" }, routes: [] },
    { id: "tank", name: "Badge", class: "badge", condition: { band: "missing" }, routes: [] },
    used("/parts/3/id", "tank", "/parts/2/id"),
  ],
  [
    "/parts/2/routes/1/id",
    "repaint",
    "fitted-one",
    used("/parts/2/routes/1/id", "fitted-one", "/parts/2/routes/0/id"),
  ],
  [
    "/parts/0/routes/0/operations/3/id",
    "weld",
    "strip",
    used("/parts/0/routes/0/operations/3/id", "strip", "/parts/0/routes/0/operations/0/id"),
  ],
  [
    "/parts/1/routes/0/purchase/outcomes/1/operations/1/id",
    "order",
    "dress",
    used(
      "/parts/1/routes/0/purchase/outcomes/1/operations/1/id",
      "dress",
      "/parts/1/routes/0/purchase/outcomes/1/operations/0/id",
    ),
  ],
  [
    "/wholeMachine/after/1/id",
    "ride",
    "strip-down",
    used("/wholeMachine/after/1/id", "strip-down", "/wholeMachine/before/0/id"),
  ],
]);

/** The loadings of the base document on a driver that is gone. */
function undeclared(driver: string): string[] {
  return [
    `/suppliers/0/drivers/${driver}  0.5  must name a driver of the document`,
    `/parts/0/routes/0/operations/2/drivers/${driver}  0.6  must name a driver of the document`,
  ];
}
