import { expect, test } from "vitest";
import { createPredictor } from "../../src/jobs/predicted-ms.ts";
import { documentWith } from "../simulation/small-document.ts";

const withItems = (count: number) =>
  documentWith({
    overheads: Array.from({ length: count }, (_, position) => ({
      id: `item-${position}`,
      name: "Item",
      cost: 100,
    })),
  });
const small = withItems(10);
const large = withItems(100);

test("predictedMs() goes by the number of operations, findings and overheads, and of draws", () => {
  const { predictedMs } = createPredictor();
  const of = (document: typeof small, draws: number) => predictedMs(document, { draws });
  const rest = of(small, 100_000) - (of(small, 300_000) - of(small, 100_000)) / 2;
  const perDraw = (of(small, 100_000) - rest) / 100_000;
  expect(perDraw).toBeGreaterThan(0);
  expect(of(large, 100_000)).toBeCloseTo(rest + 10 * perDraw * 100_000, 6);
  expect(predictedMs(small, {})).toBe(of(small, 10_000));
  expect(predictedMs(documentWith({}), {})).toBeGreaterThan(0);
});

test('predictedMs() takes draws "auto" for the most it may come to', () => {
  const { predictedMs } = createPredictor();
  expect(predictedMs(small, { draws: "auto", mostDraws: 40_000 })).toBe(
    predictedMs(small, { draws: 40_000 }),
  );
});

test("predictedMs() learns from what was observed, whichever document it was", () => {
  const { predictedMs, observe } = createPredictor();
  for (let seen = 0; seen < 9; seen++) observe(large, 10_000, 510);
  // 1,000,000 item draws in 500 ms besides the fixed 10.
  expect(predictedMs(small, { draws: 200_000 })).toBeCloseTo(1_010, 6);
  for (let seen = 0; seen < 9; seen++) observe(large, 10_000, 110);
  expect(predictedMs(small, { draws: 200_000 })).toBeCloseTo(210, 6);
});

test("predictedMs() is not led astray by one slow simulation, nor by many small ones", () => {
  const { predictedMs, observe } = createPredictor();
  const before = predictedMs(large, {});
  observe(large, 10_000, 60_000);
  for (let seen = 0; seen < 20; seen++) observe(small, 100, 50);
  expect(predictedMs(large, {})).toBe(before);
});
