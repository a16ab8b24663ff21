import { defineConfig } from "vitest/config";

// The corpus alone must come to every branch of the engine: one it never takes could change without any digest changing.
export default defineConfig({
  test: {
    include: ["tests/replay/frozen-digests.test.ts"],
    testTimeout: 120_000,
    coverage: {
      enabled: true,
      provider: "v8",
      include: ["src/simulation/**/*.ts"],
      reporter: [["text", { skipFull: true }]],
      reportsDirectory: "coverage/replay",
      thresholds: { branches: 100 },
    },
  },
});
