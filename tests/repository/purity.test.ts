import { resolve } from "node:path";
import { ESLint } from "eslint";
import { describe, expect, test } from "vitest";

const root = resolve(import.meta.dirname, "../..");
const eslint = new ESLint({ cwd: root, overrideConfigFile: ".ci/eslint.config.js" });

async function rulesBroken(code: string, file: string): Promise<(string | null)[]> {
  const [result] = await eslint.lintText(code, { filePath: resolve(root, file) });
  return result!.messages.map(({ ruleId }) => ruleId);
}

const planted: [string, string][] = [
  ["export const planted = Math.pow(2, 0.5);", "no-restricted-properties"],
  ["export const planted = Math.sin(1);", "no-restricted-properties"],
  ["export const planted = Math.exp(1);", "no-restricted-properties"],
  ["export const planted = Math.log(2);", "no-restricted-properties"],
  ["export const planted = Math.random();", "no-restricted-properties"],
  ["export const planted = Date.now();", "no-restricted-properties"],
  ["export const planted = 2 ** 0.5;", "no-restricted-syntax"],
  ["export const planted = new Date();", "no-restricted-syntax"],
  ["export const planted = process.pid;", "no-restricted-globals"],
];

describe("the lint rules of the pure rooms", () => {
  test.each(planted)("%s is refused in numeric, domain and simulation", async (code, rule) => {
    for (const room of ["numeric", "domain", "simulation"]) {
      expect(await rulesBroken(code, `src/${room}/planted.ts`)).toContain(rule);
    }
  });

  test("portable arithmetic is allowed", async () => {
    const code = "export const innocent = Math.sqrt(2) + Math.floor(1.5) / Math.max(1, 2);";
    expect(await rulesBroken(code, "src/numeric/planted.ts")).toEqual([]);
  });

  test("an impure room may read the clock", async () => {
    expect(await rulesBroken("export const now = Date.now();", "src/http/planted.ts")).toEqual([]);
  });
});
