import { expect, test } from "vitest";
import { criticalShareSchema } from "../../src/domain/critical-share.ts";
import type { Operation } from "../../src/domain/operation.ts";
import { criticalOf } from "../../src/simulation/critical-shares.ts";
import { simulation } from "../../src/simulation/simulate.ts";
import { documentWith, partWith } from "./small-document.ts";

const work = (id: string): Operation => ({ id, name: `Work ${id}`, trade: "general", leadWeeks: 1 });
const document = documentWith({
  wholeMachine: { before: [work("strip")] },
  parts: [
    partWith("tank", [{ id: "way", method: "repair", operations: [work("a"), work("b")] }], {
      name: "Fuel tank",
    }),
  ],
  findings: [
    {
      id: "rust",
      name: "Rust inside",
      probability: 0.5,
      trade: "paint",
      leadWeeks: 2,
      revealedAt: "blasting",
    },
  ],
});

test("criticalOf() gives each operation's share of draws, most often first, none that never is critical", () => {
  const made = simulation(document, { draws: 320 });
  // By replicate x item (strip, a, b, rust): 20 draws each, of which strip in all, a in 5, b in none, rust in 10 or 14.
  const criticalDraws = Int32Array.from(
    { length: 16 * 4 },
    (_, at) => [20, 5, 0, at < 32 ? 10 : 14][at % 4]!,
  );
  const shares = criticalOf({ ...made, outcomes: { ...made.outcomes, criticalDraws } });
  expect(shares.map(({ path, pointer, words, share }) => [path, pointer, words, share.value])).toEqual([
    ["whole/strip", "/wholeMachine/before/0", "work strip", 1],
    ["findings/rust", "/findings/0", "rust inside: putting it right", 0.6],
    ["tank/way/a", "/parts/0/routes/0/operations/0", "fuel tank: work a", 0.25],
  ]);
  // Whole-machine work has nothing beside it: certain. Eight replicates of .5 and eight of .7: sd .1 x sqrt(16 / 15), over 4.
  // A hunt from week 0 could outlast it: critical in every draw, and not for certain.
  expect(shares[0]!.share.standardError).toBeGreaterThan(0);
  expect(shares[1]!.share.standardError).toBeCloseTo((0.1 * Math.sqrt(16 / 15)) / 4, 12);
  for (const share of shares) expect(criticalShareSchema.parse(share)).toEqual(share);
});

test("criticalOf() tells nothing without a schedule", () => {
  expect(criticalOf(simulation(document, { draws: 320 }, { schedule: false }))).toEqual([]);
});
