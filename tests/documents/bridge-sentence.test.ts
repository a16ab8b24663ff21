import { describe, expect, test } from "vitest";
import { bridgeSentence } from "../../src/documents/bridge-sentence.ts";
import type { Bridge, BridgeCashTerm } from "../../src/domain/bridge.ts";

const figure = (value: number, standardError = 0) => ({ value, standardError });
const term = (
  name: string,
  value: number,
  { standardError = 0, change = "changed" as BridgeCashTerm["change"] } = {},
): BridgeCashTerm => {
  const p50 = figure(value, standardError);
  return { kind: "part", id: name, name, change, pointers: {}, mean: figure(0), p50, p80: figure(0) };
};
const bridgeOf = (terms: BridgeCashTerm[], standardError = 0): Bridge => {
  const sum = terms.reduce((total, { p50 }) => total + p50.value, 0);
  const difference = { first: 5000, second: 5000 + sum, difference: figure(sum, standardError) };
  return {
    rule: "",
    draws: 100,
    seed: 1,
    cash: { mean: difference, p50: difference, p80: difference, terms },
  };
};
const say = (terms: BridgeCashTerm[], standardError = 0) => bridgeSentence(bridgeOf(terms, standardError), 2);

describe("bridgeSentence()", () => {
  test("names what changed, the most first, with the digits each can carry", () => {
    const terms = [term("Seat", -40), term("Plating", 297.4, { standardError: 7 })];
    expect(say(terms, 7)).toBe(
      "Plating rose by about 300; Seat fell by 40. In all the median of the restoration cost rose by about 260.",
    );
  });

  test("says what is new and what is gone", () => {
    const terms = [term("Seat", 80, { change: "added" }), term("Tank", -100.5, { change: "removed" })];
    expect(say(terms)).toBe(
      "Tank, gone, takes off 100.50; Seat, new, adds 80. In all the median of the restoration cost fell by 20.50.",
    );
  });

  test("tells the fifth and those after it together", () => {
    const terms = [60, 50, 40, 30, 20, 10].map((value) => term(`Part ${value}`, value));
    expect(say(terms)).toContain("Part 30 rose by 30; 2 more rose by 30 together. In all");
  });

  test("leaves out what does not show, and says so where that is all", () => {
    const least = term("Dust", 0.2, { standardError: 1 });
    expect(say([least])).toBe("Nothing that shows in the median of the restoration cost has changed.");
    expect(say([])).toBe("Nothing that shows in the median of the restoration cost has changed.");
    expect(say([term("Seat", 10), term("Tank", -10)])).toBe(
      "Seat rose by 10; Tank fell by 10. In all the median of the restoration cost is where it was.",
    );
  });

  test("does not obey a name", () => {
    expect(say([term("Seat\u001b[31m", 10)])).toMatch(/^Seat \[31m rose by 10\./);
  });
});
