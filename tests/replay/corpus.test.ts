import { describe, expect, test } from "vitest";
import { parseEstimateDocument } from "../../src/domain/parse-estimate-document.ts";
import { parseSimulationOptions } from "../../src/domain/simulation-options.ts";
import { runName } from "./corpus-entry.ts";
import { changedUnderOneVersion } from "./frozen-digests.ts";
import { readCorpus } from "./read-corpus.ts";

describe("the golden corpus", () => {
  const corpus = readCorpus();

  test("holds at least 60 documents, each of which passes every rule", () => {
    expect(new Set(corpus.map(({ document }) => JSON.stringify(document))).size).toBeGreaterThanOrEqual(60);
    for (const { name, document } of corpus) {
      expect(parseEstimateDocument(document), name).toEqual({ document });
    }
  });

  test("holds runs of distinct names that ask for what may be asked", () => {
    const names = corpus.flatMap((entry) => entry.runs.map((run) => runName(entry, run)));
    expect(new Set(names).size).toBe(names.length);
    for (const { options } of corpus.flatMap(({ runs }) => runs)) {
      expect(parseSimulationOptions(options)).toEqual({ options });
    }
  });

  test("is drawn in both samplings, in several chunks a replicate, totals only, and in as many draws as needed", () => {
    const options = corpus.flatMap(({ runs }) => runs.map((run) => run.options));
    const draws = options.map((option) => option.draws);
    expect(new Set(options.map(({ sampling }) => sampling))).toEqual(new Set(["stratified", "independent"]));
    expect(draws.filter((count) => typeof count === "number" && count > 16_384).length).toBeGreaterThan(3);
    expect(draws).toContain(200_001);
    expect(draws).toContain("auto");
  });
});

describe("changedUnderOneVersion()", () => {
  const before = { engine: "1.0.0", digests: { kept: "aa", other: "bb", gone: "cc" } };
  const now = { kept: "aa", other: "b0", added: "dd" };

  test("lists what an engine of the same version gives otherwise or not at all", () => {
    expect(changedUnderOneVersion(before, { engine: "1.0.0", digests: now })).toEqual(["other", "gone"]);
  });

  test("lets everything change with the version, and a first freezing pass", () => {
    expect(changedUnderOneVersion(before, { engine: "1.1.0", digests: now })).toEqual([]);
    expect(changedUnderOneVersion(undefined, { engine: "1.0.0", digests: now })).toEqual([]);
  });
});
