import { expect, test } from "vitest";
import { parseSimulationOptions, withDefaults } from "../../src/domain/simulation-options.ts";

test("withDefaults() fills in 10,000 draws, seed 1, stratified", () => {
  expect(withDefaults({})).toEqual({ draws: 10_000, seed: 1, sampling: "stratified" });
  const given = { draws: 32, seed: 0, sampling: "independent" } as const;
  expect(withDefaults(given)).toEqual(given);
});

test("withDefaults() bounds draws that are made until they are enough", () => {
  expect(withDefaults({ draws: "auto", tolerance: { probability: 0.02 } }).adaptive).toEqual({
    tolerance: { shareOfMedian: 0.005, probability: 0.02 },
    mostDraws: 100_000,
  });
});

test.each([
  [
    { draws: 32, seed: 0 },
    { draws: 31, seed: -1 },
    ["/draws  31  draws is at least 32", "/seed  -1  seed is at least 0"],
  ],
  [{ draws: 1_000_000 }, { draws: 1_000_001 }, ["/draws  1000001  draws is at most 1000000"]],
  [{ draws: 100 }, { draws: 100.5 }, ['/draws  100.5  draws is a whole number, or "auto"']],
  [{ draws: 100 }, { draws: "100" }, ['/draws  "100"  draws is a whole number, or "auto"']],
  [
    { seed: 2 ** 53 - 1 },
    { seed: 2 ** 53 },
    ["/seed  9007199254740992  seed is a whole number, at most 9007199254740991"],
  ],
  [
    { sampling: "independent" },
    { sampling: "sobol" },
    ['/sampling  "sobol"  one of stratified, independent'],
  ],
  [{}, { drawz: 5 }, ["/drawz  5  unknown field"]],
  [
    { draws: "auto", tolerance: { probability: 0.01 } },
    { draws: "auto", tolerance: { probability: 0, width: 1 } },
    ["/tolerance/probability  0  a tolerance is at least 0.00001", "/tolerance/width  1  unknown field"],
  ],
  [
    { draws: "auto", mostDraws: 8_000 },
    { draws: 8_000, mostDraws: 8_000, tolerance: {} },
    [
      '/tolerance  {}  tolerance goes only with draws "auto"',
      '/mostDraws  8000  mostDraws goes only with draws "auto"',
    ],
  ],
  [
    { draws: "auto", mostDraws: 8_000 },
    { draws: "auto", mostDraws: 7_999 },
    ["/mostDraws  7999  mostDraws is at least 8000"],
  ],
])("parseSimulationOptions() takes %j but not %j", (good, bad, lines) => {
  expect(parseSimulationOptions(good)).toEqual({ options: good });
  const parsed = parseSimulationOptions(bad);
  const faults = "faults" in parsed ? parsed.faults : [];
  expect(faults.map(({ pointer, value, rule }) => `${pointer}  ${value}  ${rule}`)).toEqual(lines);
});
