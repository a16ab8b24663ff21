import { describe, expect, test } from "vitest";
import type { Finding } from "../../src/domain/estimate-document.ts";
import type { Route } from "../../src/domain/part.ts";
import type { Method } from "../../src/domain/vocabulary.ts";
import { influenceWords } from "../../src/simulation/sensitivity-words.ts";
import { documentWith, partWith } from "./small-document.ts";

const route = (method: Method, fields: Partial<Route> = {}): Route => ({
  id: method,
  method,
  operations: [],
  ...fields,
});
const finding = (name: string): Finding => ({
  id: "found",
  name,
  probability: 0.2,
  trade: "machining",
  revealedAt: "machining",
});

const fender = partWith("fender", [route("replate")], { name: "Front fender" });
const levers = partWith("levers", [route("reuse"), route("repair"), route("used", { id: "spare" })], {
  name: "Levers",
});
const carburettor = partWith(
  "carburettor",
  [route("repair", { id: "clean" }), route("repair", { id: "sleeve" })],
  {
    name: "The carburettor",
  },
);
const words = influenceWords(documentWith({ parts: [fender, levers, carburettor] }));
const line = (kind: "part" | "supplier" | "finding" | "overhead" | "whole", id: string, name: string) =>
  words.line({ kind, id, name });

describe("influenceWords()", () => {
  test.each([
    [
      "what a part costs by its one way",
      line("part", "fender", "Front fender"),
      "front fender: what replating costs",
    ],
    [
      "what a part costs by one of its ways",
      line("part", "levers", "Levers"),
      "levers: what reuse, repair or buying used costs",
    ],
    [
      "ways of one name once",
      line("part", "carburettor", "The carburettor"),
      "the carburettor: what repair costs",
    ],
    [
      "a supplier by its own name",
      line("supplier", "x", "Oddmoor Plating"),
      "Oddmoor Plating: minimum charge, charges and freight",
    ],
    ["what a finding costs", line("finding", "x", "Bent forks"), "bent forks: what putting it right costs"],
    ["an overhead", line("overhead", "x", "Consumables"), "consumables: what it comes to"],
    ["a driver by its name", words.driver("How it was kept"), "how it was kept"],
    ["a condition", words.condition(fender), "condition of the front fender"],
    ["a condition without a second article", words.condition(carburettor), "condition of the carburettor"],
    [
      "whether something needs doing",
      words.presence(finding("Crank needs rebuilding")),
      "whether the crank needs rebuilding",
    ],
    [
      "whether anything else is there",
      words.presence(finding("Pinholes once it is clean")),
      "whether it comes to light: pinholes once it is clean",
    ],
    ["a failure", words.failure(fender, fender.routes[0]!), "whether replating the front fender fails"],
    [
      "a purchase that fails",
      words.failure(levers, levers.routes[2]!),
      "whether buying the levers used fails",
    ],
    [
      "which of two ways of one name",
      words.failure(carburettor, carburettor.routes[1]!),
      "whether repairing the carburettor fails (sleeve)",
    ],
  ])("says %s", (_, said, expected) => {
    expect(said).toBe(expected);
  });

  test("does not name a way that has failed already, and no more than three", () => {
    const many = (["reuse", "repair", "used", "fabricate"] as const).map((method) => route(method));
    const parts = [
      partWith("one", [route("repair", { state: "failed" }), route("used")]),
      partWith("many", many),
    ];
    const say = influenceWords(documentWith({ parts }));
    expect(say.line({ kind: "part", id: "one", name: "One" })).toBe("one: what buying used costs");
    expect(say.line({ kind: "part", id: "many", name: "Many" })).toBe("many: what getting it right costs");
  });
});
