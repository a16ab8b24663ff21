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
      // What simulate() does not do: tested where it is, without frozen digests.
      exclude: ["src/simulation/bridge*.ts"],
      reporter: [["text", { skipFull: true }]],
      reportsDirectory: "coverage/replay",
      // To be 100: five branches of what moves the answer are not come to yet (see the report's list).
      thresholds: { branches: 99 },
    },
  },
});
