import { afterEach, expect, test, vi } from "vitest";
import { runWithProgress } from "../../src/jobs/run-with-progress.ts";
import type { SimulationAdvance } from "../../src/jobs/run-with-progress.ts";
import { simulate } from "../../src/simulation/simulate.ts";
import { documentWith, partWith } from "../simulation/small-document.ts";

const document = documentWith({
  parts: [
    partWith("rim", [
      {
        id: "replate",
        method: "replate",
        operations: [
          {
            id: "plate",
            name: "Plate",
            trade: "plating",
            cost: { kind: "pert", low: 80, mode: 100, high: 160 },
          },
        ],
      },
    ]),
  ],
});
const options = { draws: 16_384 * 9, seed: 3 };

/** A clock that goes on by so much whenever it is looked at. */
function clock(stepMs: number): void {
  let now = 0;
  vi.spyOn(performance, "now").mockImplementation(() => (now += stepMs));
}
afterEach(() => vi.restoreAllMocks());

function advances(): SimulationAdvance[] {
  const told: SimulationAdvance[] = [];
  const result = runWithProgress(document, options, (advance) => told.push(advance));
  expect(result).toEqual(simulate(document, options));
  return told;
}

test("runWithProgress() tells rising progress, and partial results of at least twice the draws each", () => {
  clock(300);
  const told = advances();
  expect(told.length).toBeGreaterThanOrEqual(8);
  let last = 0;
  for (const { progress } of told) {
    expect(progress).toBeGreaterThan(last);
    expect(progress).toBeLessThan(1);
    last = progress;
  }
  const draws = told.flatMap(({ partial }) => partial?.engine.draws ?? []);
  expect(draws.length).toBeGreaterThanOrEqual(3);
  for (let position = 1; position < draws.length; position++) {
    expect(draws[position]).toBeGreaterThanOrEqual(2 * draws[position - 1]!);
  }
});

test("runWithProgress() tells nothing of what is over in a moment", () => {
  clock(1);
  expect(advances()).toEqual([]);
});
