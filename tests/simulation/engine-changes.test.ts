import { expect, test } from "vitest";
import { engineChanges } from "../../src/simulation/engine-changes.ts";
import { engineVersion } from "../../src/simulation/engine-version.ts";

test("engineChanges lists the engine's versions, newest first, and the engine's own is the newest", () => {
  const versions = engineChanges.map(({ version }) => version);
  expect(versions[0]).toBe(engineVersion);
  const numbers = versions.map((version) => version.split(".").map(Number));
  for (const [place, [major = 0, minor = 0, patch = 0]] of numbers.slice(1).entries()) {
    const [a = 0, b = 0, c = 0] = numbers[place]!;
    expect(a * 1e6 + b * 1e3 + c).toBeGreaterThan(major * 1e6 + minor * 1e3 + patch);
  }
  for (const { date, changed } of engineChanges) {
    expect(new Date(date).toISOString().slice(0, 10)).toBe(date);
    expect(changed).toMatch(/\.$/);
  }
});
