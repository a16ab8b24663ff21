import { expect, test } from "vitest";
import { eventThreshold } from "../../src/numeric/event-threshold.ts";
import { drawScores, shareError, shareOf } from "./draw.ts";
import { expectRelative, expectWithin } from "./expect-close.ts";

test("eventThreshold() lets a certain event always happen and an impossible one never", () => {
  expect(eventThreshold(0)).toBe(Infinity);
  expect(eventThreshold(1)).toBe(-Infinity);
  expect(() => eventThreshold(1.5)).toThrow(expect.objectContaining({ code: "probability-out-of-range" }));
});

// Published: 1.2815515655446004 computed with SciPy.
test("eventThreshold() of a tenth is the 90 % point", () => {
  expectRelative(eventThreshold(0.1), 1.2815515655446004, 1e-14);
});

// Statistical, fixed seed. Tolerance: 5 sqrt(p (1 - p) / n).
test("eventThreshold() is passed as often as the event should happen", () => {
  const scores = drawScores("event", 200_000);
  for (const p of [0.001, 0.05, 0.3, 0.5, 0.9]) {
    const threshold = eventThreshold(p);
    const share = shareOf(scores, (score) => score > threshold);
    expectWithin(share, p, 5 * shareError(p, scores.length), `probability ${p}`);
  }
});
