import { expect, test } from "vitest";
import { parseSimulationOptions, withDefaults } from "../../src/domain/simulation-options.ts";

test("withDefaults() fills in 10,000 draws, seed 1, stratified", () => {
  expect(withDefaults({})).toEqual({ draws: 10_000, seed: 1, sampling: "stratified" });
  const given = { draws: 32, seed: 0, sampling: "independent" } as const;
  expect(withDefaults(given)).toEqual(given);
});

test.each([
  [
    { draws: 32, seed: 0 },
    { draws: 31, seed: -1 },
    ["/draws  31  draws is at least 32", "/seed  -1  seed is at least 0"],
  ],
  [{ draws: 1_000_000 }, { draws: 1_000_001 }, ["/draws  1000001  draws is at most 1000000"]],
  [{ draws: 100 }, { draws: 100.5 }, ["/draws  100.5  draws is a whole number"]],
  [{ draws: 100 }, { draws: "100" }, ['/draws  "100"  draws is a whole number']],
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
])("parseSimulationOptions() takes %j but not %j", (good, bad, lines) => {
  expect(parseSimulationOptions(good)).toEqual({ options: good });
  const parsed = parseSimulationOptions(bad);
  const faults = "faults" in parsed ? parsed.faults : [];
  expect(faults.map(({ pointer, value, rule }) => `${pointer}  ${value}  ${rule}`)).toEqual(lines);
});
