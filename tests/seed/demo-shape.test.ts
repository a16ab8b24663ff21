import { expect, test } from "vitest";
import { simulate } from "../../src/simulation/simulate.ts";
import { readDocument } from "./read-document.ts";

const result = simulate(readDocument("demo/barn-stored-single.json"), { draws: 4_000, seed: 1 });

// Published: the shape a rough model of the trade expects of this scenario (40,000 draws; common practice, from memory).
// Tolerance: 10 % of each figure, as asked; one standard error of any of them is below 0.6 % at 4,000 draws, seed 1.
test("simulate() gives the barn-stored single the shape the trade expects", () => {
  const { cash } = result.restoration;
  const finished = result.value?.finished;
  const expected: [string, number | undefined, number][] = [
    ["sum of typicals", result.sumOfTypicals, 12_270],
    ["restoration P10", cash.p10.value, 12_900],
    ["restoration P50", cash.p50.value, 15_100],
    ["restoration P90", cash.p90.value, 17_500],
    ["value P10", finished?.p10.value, 9_100],
    ["value P50", finished?.p50.value, 11_800],
    ["value P90", finished?.p90.value, 15_300],
  ];
  for (const [name, value, target] of expected) {
    expect(Math.abs((value ?? Number.NaN) / target - 1), `${name}: ${value}`).toBeLessThan(0.1);
  }
});

// Published, as above: the chance to break even is about 1 %. Tolerance: three standard errors of a probability of
// 1 % over 4,000 draws are 0.5 points, and "about" leaves as much again.
test("simulate() finds that the barn-stored single hardly ever earns its money back", () => {
  expect(Math.abs(1 - (result.value?.lossProbability.value ?? Number.NaN) - 0.01)).toBeLessThan(0.01);
});
