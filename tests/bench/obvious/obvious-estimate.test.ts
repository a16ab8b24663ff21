import { describe, expect, test } from "vitest";
import type { EstimateDocument } from "../../../src/domain/estimate-document.ts";
import { resultOf } from "../../../src/simulation/result.ts";
import { simulation } from "../../../src/simulation/simulate.ts";
import { benchDocument } from "../bench-document.ts";
import { demoDocument } from "../demo-document.ts";
import { plainDocument } from "../plain-document.ts";
import { obviousEstimate } from "./obvious-estimate.ts";

interface Figure {
  value: number;
  standardError: number;
}

/** Every mean and probability in a result, by where it stands. */
function figuresOf(json: unknown, path = "", found = new Map<string, Figure>()): Map<string, Figure> {
  const isMeasured = path === "" || !/\/(p\d+|sd|varianceShare|ceiling|recovery|reserveForP80)$/.test(path);
  if (typeof json !== "object" || json === null || !isMeasured) return found;
  if ("standardError" in json) return found.set(path, json as Figure);
  for (const [field, value] of Object.entries(json)) {
    const { id, kind = "" } = (value ?? {}) as { id?: string; kind?: string };
    figuresOf(value, `${path}/${id === undefined ? field : `${kind}:${id}`}`, found);
  }
  return found;
}

const documents: [string, EstimateDocument][] = [
  ["the demo", demoDocument()],
  ["the plain document", plainDocument(60)],
  ["the rich document", benchDocument(60)],
];

/**
 * Statistical: two results of independent draws differ by sqrt(2) standard errors of one of them, which the engine states
 * from 16 replicates. Among some 400 figures of two fixed seeds, a difference of five joint standard errors has a chance of
 * about 1 in 4,000 a document, and about 1 in 200 for the 27 percentiles, whose errors have 15 degrees of freedom.
 */
describe.each(documents)("of %s", (_name, document) => {
  const draws = 6_000;
  const options = { draws, seed: 1, sampling: "independent" } as const;
  const result = resultOf(simulation(document, options, { schedule: false }));
  const obvious = obviousEstimate(document, draws, 2);
  const engineFigures = figuresOf(result);
  const obviousFigures = figuresOf(obvious);

  test("obviousEstimate() gives a mean wherever the engine does, but for the schedule and what moves the answer", () => {
    const missing = [...engineFigures.keys()].filter((path) => !obviousFigures.has(path));
    const leftOut = /^\/(weeks|sensitivity|firmUpFirst|critical)/;
    expect(missing.filter((path) => !leftOut.test(path))).toEqual([]);
    expect(obviousFigures.size).toBeGreaterThan(100);
  });

  test("every mean and probability of obviousEstimate() is the engine's", () => {
    const apart = [...obviousFigures].filter(([path, { value, standardError }]) => {
      const other = engineFigures.get(path)!;
      const allowed = 5 * Math.hypot(standardError, other.standardError) + 1e-9 * Math.abs(value);
      return !(Math.abs(value - other.value) <= allowed);
    });
    expect(apart.map(([path, figure]) => ({ path, ...figure, engine: engineFigures.get(path) }))).toEqual([]);
  });

  test.each([
    ["restoration cash", result.restoration.cash, obvious.restoration.cash],
    ["all-in", result.allIn, obvious.allIn],
    ["gap", result.value!.gap, obvious.value!.gap],
  ])("the spread of the %s is the engine's", (_what, engine, peer) => {
    for (const name of ["sd", "p5", "p10", "p25", "p50", "p75", "p80", "p90", "p95"] as const) {
      const { value, standardError } = engine[name];
      expect(Math.abs(peer[name] - value), name).toBeLessThan(5 * Math.SQRT2 * standardError);
    }
  });
});
