import { expect, test } from "vitest";
import { influenceSentence } from "../../src/documents/influence-words.ts";
import type { Influence } from "../../src/domain/sensitivity.ts";

const figure = (value: number, standardError = 30) => ({ value, standardError });
const influence = (fields: Partial<Influence>): Influence => ({
  kind: "part",
  id: "fender",
  pointer: "/parts/0",
  words: "front fender: what replating costs",
  lowest: figure(5212),
  highest: figure(6943),
  ...fields,
});

test("influenceSentence() joins the two tenths of an amount", () => {
  expect(influenceSentence(influence({}), "cash", 2)).toBe(
    "Front fender: what replating costs: on average 5,200 in the cheapest tenth of the draws, 6,950 in the dearest.",
  );
});

test("influenceSentence() says of an event what it comes to without and with it", () => {
  const crank = influence({
    kind: "presence",
    words: "whether the crank needs rebuilding",
    absent: figure(38.21, 0.4),
    present: figure(51.7, 0.9),
  });
  expect(influenceSentence(crank, "weeks", 2)).toBe(
    "Whether the crank needs rebuilding: on average 38 weeks if not, 52 weeks if so.",
  );
});

test("influenceSentence() says of the gap whether it is a cost or a gain", () => {
  const value = influence({
    kind: "value",
    words: "what it will be worth",
    lowest: figure(-4212),
    highest: figure(1012),
  });
  expect(influenceSentence(value, "gap", 2)).toBe(
    "What it will be worth: on average a net cost of 4,200 in the lowest tenth of the draws, a gain of 1,000 in the highest.",
  );
});

test.each([
  ["condition", "soundest", "worst"],
  ["driver", "lowest", "highest"],
  ["weeks", "quickest", "slowest"],
] as const)("influenceSentence() calls the ends of a %s by their names", (kind, low, high) => {
  const sentence = influenceSentence(influence({ kind }), "cash", 0);
  expect(sentence).toContain(`in the ${low} tenth`);
  expect(sentence).toMatch(new RegExp(`in the ${high}\\.$`));
});

test("influenceSentence() does not obey a name", () => {
  expect(influenceSentence(influence({ words: "seat\u202E: what it costs" }), "cash", 0)).not.toContain(
    "\u202E",
  );
});
