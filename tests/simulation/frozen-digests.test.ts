import { expect, test } from "vitest";
import { engineVersion } from "../../src/simulation/engine-version.ts";
import frozen from "./fixtures/digests.json" with { type: "json" };
import { generatedDigests } from "./fixtures/generated-digests.ts";

// Frozen: guards change, not truth. A change here changes stored estimates: raise the engine's version, then run
// fixtures/write-digests.ts.
test("simulate() gives the digests it gave when this engine version was set", () => {
  expect(engineVersion).toBe(frozen.engine);
  expect(generatedDigests()).toEqual(frozen.digests);
});
