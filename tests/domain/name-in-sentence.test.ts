import { expect, test } from "vitest";
import { nameInSentence } from "../../src/domain/name-in-sentence.ts";

test.each([
  ["Front fender", "front fender"],
  ["A stud breaks", "a stud breaks"],
  ["CDI unit", "CDI unit"],
  ["V8 badge", "V8 badge"],
  ["Ölkühler", "ölkühler"],
  ["X", "x"],
])("nameInSentence() writes %s as %s", (name, expected) => {
  expect(nameInSentence(name)).toBe(expected);
});

test("nameInSentence() keeps the capital of a name of its own", () => {
  expect(nameInSentence("Merrowdale badge", ["Merrowdale", "Tarn 350"])).toBe("Merrowdale badge");
});
