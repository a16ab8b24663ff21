import { describe, expect, test } from "vitest";
import type { EstimateDocument, Supplier } from "../../src/domain/estimate-document.ts";
import type { Operation } from "../../src/domain/operation.ts";
import type { Part } from "../../src/domain/part.ts";
import type { Uncertain } from "../../src/domain/uncertain.ts";
import { simulation } from "../../src/simulation/simulate.ts";
import { expectMean, expectSd, expectShareUpTo, meanOf } from "./column-figures.ts";
import computed from "./fixtures/pert-network.json" with { type: "json" };
import { documentWith, partWith } from "./small-document.ts";

const shop = (id: string, leadWeeks: Uncertain, after: string[] = []): Operation => ({
  id,
  name: id,
  trade: "general",
  leadWeeks,
  after,
});
const own = (id: string, hours: Uncertain): Operation => ({
  id,
  name: id,
  trade: "general",
  hours,
  by: "owner",
});
const chain = (id: string, ...operations: Operation[]): Part =>
  partWith(id, [{ id: "only", method: "repair", operations }]);

const tenTwo: Uncertain = { kind: "normal", mean: 10, sd: 2 };
const three = ["a", "b", "c"];

/** Taylor, "Introduction to Management Science", PERT example: a, m, b in weeks. */
const estimates = [
  [5, 8, 17],
  [7, 10, 13],
  [3, 5, 7],
  [1, 3, 5],
  [4, 6, 8],
  [3, 3, 3],
  [3, 4, 5],
] as const;
const activity = (number: number, times = 1): Uncertain => {
  const [low, mode, high] = estimates[number - 1]!;
  return { kind: "pert", low: low * times, mode: mode * times, high: high * times };
};

describe.each(["stratified", "independent"] as const)(
  "published networks through the schedule, %s sampling (5 standard errors)",
  (sampling) => {
    const weeksOf = (fields: Partial<EstimateDocument>) =>
      simulation(documentWith(fields), { draws: 200_000, sampling }).outcomes.weeks;

    // Published: merge bias (Clark 1961). Max of two N(0, 1): mean .564190, sd .825645; of three: mean .846284; of two
    // N(10, 2): 11.128379.
    test("two parts at N(10, 2) weeks each are both back after 11.128379 in the mean", () => {
      const weeks = weeksOf({ parts: [chain("a", shop("work", tenTwo)), chain("b", shop("work", tenTwo))] });
      expectMean(weeks, 11.128379);
      expectSd(weeks, 2 * 0.825645);
    });

    test("three parts at N(10, 2) weeks each are all back after 10 + 2 x .846284", () => {
      const weeks = weeksOf({ parts: three.map((id) => chain(id, shop("work", tenTwo))) });
      expectMean(weeks, 10 + 2 * 0.846284);
    });

    test("a departure merges likewise: it leaves with the last of two visits", () => {
      const suppliers: Supplier[] = [{ id: "plater", name: "Plater", trade: "plating", leadWeeks: 3 }];
      const plate: Operation = { id: "plate", name: "Plate", trade: "plating", supplier: "plater" };
      const parts = ["a", "b"].map((id) => chain(id, shop("ready", tenTwo), plate));
      const weeks = weeksOf({ suppliers, parts });
      expectMean(weeks, 11.128379 + 3);
      expectSd(weeks, 2 * 0.825645);
    });

    test("findings without a part merge with the parts", () => {
      const finding = (id: string) => ({
        id,
        name: id,
        trade: "general" as const,
        probability: 1,
        leadWeeks: tenTwo,
        revealedAt: "strip-down" as const,
      });
      const weeks = weeksOf({ parts: [chain("a", shop("work", tenTwo))], findings: ["b", "c"].map(finding) });
      expectMean(weeks, 10 + 2 * 0.846284);
    });

    // Published: Taylor's critical path 1-3-5-7, mean 24; his variance 5.0 and P(<= 28) .9633 are the (b - a) / 6 and
    // normal approximation; with exact modified betas 5.857 and .9386 (computed). The tolerance of the chance is .0027.
    test("the critical path 1-3-5-7 of Taylor's PERT example takes 24 weeks, variance 5.857, P(<= 28) .9386", () => {
      const path = [1, 3, 5, 7];
      const byShops = weeksOf({
        parts: [chain("path", ...path.map((each) => shop(`w${each}`, activity(each))))],
      });
      const byOwner = weeksOf({
        parts: [chain("path", ...path.map((each) => own(`w${each}`, activity(each, 10))))],
      });
      for (const weeks of [byShops, byOwner]) {
        expectMean(weeks, 24);
        expectSd(weeks, Math.sqrt(computed.chain.variance));
        expectShareUpTo(weeks, 28, 0.9386);
      }
    });

    test("all seven activities, each a part of its own bound by `after`, end as the exact convolution says", () => {
      // Computed with SciPy 1.10, fixtures/pert-network.py: 3 after 1; 4 after 2; 5 after 3 and 4; 6 after 2; 7 after 5, 6.
      const after: Record<number, number[]> = { 3: [1], 4: [2], 5: [3, 4], 6: [2], 7: [5, 6] };
      const parts = estimates.map((_, index) => {
        const before = (after[index + 1] ?? []).map((each) => `a${each}/only/work`);
        return chain(`a${index + 1}`, shop("work", activity(index + 1), before));
      });
      for (const order of [parts, parts.toReversed()]) {
        const weeks = weeksOf({ parts: order });
        expectMean(weeks, computed.network.mean);
        expectSd(weeks, Math.sqrt(computed.network.variance));
        expectShareUpTo(weeks, computed.network.limit, computed.network.probability);
        // The merge costs time that the critical path alone does not show.
        expect(meanOf(weeks)).toBeGreaterThan(24.5);
      }
    });
  },
);
