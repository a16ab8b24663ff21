import { describe, expect, test } from "vitest";
import { engineVersion } from "../../src/simulation/engine-version.ts";
import { digestsOf } from "./digests-of.ts";
import frozen from "./fixtures/digests.json" with { type: "json" };
import { readCorpus } from "./read-corpus.ts";

// Frozen: guards change, not truth. A change here changes what stored estimates replay to.
describe("the golden corpus", () => {
  test("simulate() gives the digests it gave when this engine version was set", { timeout: 180_000 }, () => {
    const digests = digestsOf(readCorpus());
    const advice =
      engineVersion === frozen.engine
        ? "results changed: raise engineVersion in src/simulation/engine-version.ts, then `npm run replay:freeze`"
        : "the engine's version was raised: `npm run replay:freeze`";
    expect(digests, advice).toEqual(frozen.digests);
  });
});
