import { resolve } from "node:path";
import { ESLint } from "eslint";
import { describe, expect, test } from "vitest";

const root = resolve(import.meta.dirname, "../..");
const eslint = new ESLint({ cwd: root, overrideConfigFile: ".ci/eslint.config.js" });

async function rulesBroken(code: string, file: string): Promise<(string | null)[]> {
  const [result] = await eslint.lintText(code, { filePath: resolve(root, file) });
  return result!.messages.map(({ ruleId }) => ruleId);
}

/** Every function of Math that is not exact by the standard of the language, and chance. */
const notPortable = [
  ...[
    "acos",
    "acosh",
    "asin",
    "asinh",
    "atan",
    "atan2",
    "atanh",
    "cos",
    "cosh",
    "sin",
    "sinh",
    "tan",
    "tanh",
  ],
  ...["cbrt", "exp", "expm1", "hypot", "log", "log10", "log1p", "log2", "pow", "random"],
];

const planted: [string, string][] = [
  ...notPortable.map((name): [string, string] => [
    `export const planted = Math.${name}(0.5, 2);`,
    "no-restricted-syntax",
  ]),
  ['export const planted = Math["pow"](2, 0.5);', "no-restricted-syntax"],
  ["export const planted = (name: keyof Math) => Math[name];", "no-restricted-syntax"],
  ["const { pow } = Math; export const planted = pow(2, 0.5);", "no-restricted-syntax"],
  ["const all = Math; export const planted = all.sin(2);", "no-restricted-syntax"],
  ["export const planted = globalThis.Math.sin(2);", "no-restricted-globals"],
  ["export const planted = 2 ** 0.5;", "no-restricted-syntax"],
  ["export let planted = 2; planted **= 0.5;", "no-restricted-syntax"],
  ['export const planted = "a".localeCompare("b");', "no-restricted-syntax"],
  ["export const planted = (1.5).toLocaleString();", "no-restricted-syntax"],
  ["export const planted = new Intl.Collator();", "no-restricted-globals"],
  ["export const planted = new Date();", "no-restricted-syntax"],
  ["export const planted = Date.now();", "no-restricted-properties"],
  ["export const planted = process.pid;", "no-restricted-globals"],
  ["export const planted = performance.now();", "no-restricted-globals"],
  ["export const planted = crypto.randomUUID();", "no-restricted-globals"],
];

describe("the lint rules of the pure rooms", () => {
  test.each(planted)("%s is refused in numeric, domain and simulation", async (code, rule) => {
    for (const room of ["numeric", "domain", "simulation"]) {
      expect(await rulesBroken(code, `src/${room}/planted.ts`)).toContain(rule);
    }
  });

  test("portable arithmetic is allowed", async () => {
    const code = "export const innocent = Math.sqrt(2) * Math.SQRT2 + Math.floor(1.5) / Math.max(1, 2);";
    expect(await rulesBroken(code, "src/numeric/planted.ts")).toEqual([]);
  });

  test("an impure room may read the clock", async () => {
    expect(await rulesBroken("export const now = Date.now();", "src/http/planted.ts")).toEqual([]);
  });
});
