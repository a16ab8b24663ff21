import { expect, test } from "vitest";
import { findChromium } from "./find-chromium.ts";
import frozen from "./fixtures/digests.json" with { type: "json" };
import { openInChromium } from "./open-in-chromium.ts";
import { serveReplay } from "./serve-replay.ts";

// Frozen: guards change, not truth.
test("simulate() gives the same digests in a browser's worker", { timeout: 180_000 }, async ({ skip }) => {
  const program = findChromium();
  if (program === undefined && process.env["CI"] === undefined) {
    process.stderr.write("not replayed in a browser: no Chromium on PATH\n");
    skip("no Chromium on PATH");
  }
  expect(program, "CI has a Chromium on PATH").toBeDefined();
  const served = await serveReplay();
  const chromium = await openInChromium(program!, served.address);
  try {
    const answer = await Promise.race([served.answer, chromium.ended]);
    expect(answer).toEqual({ digests: frozen.digests });
  } finally {
    await chromium.close();
    served.close();
  }
});
