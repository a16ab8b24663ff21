import { execFile } from "node:child_process";
import { copyFile, mkdir, mkdtemp, rm, symlink, writeFile } from "node:fs/promises";
import { tmpdir } from "node:os";
import { dirname, join, resolve } from "node:path";
import { afterAll, beforeAll, describe, expect, test } from "vitest";

const root = resolve(import.meta.dirname, "../..");
const program = join(root, "node_modules/dependency-cruiser/bin/dependency-cruise.mjs");
const config = join(root, "src/.dependency-cruiser.cjs");

interface Violation {
  from: string;
  rule: { name: string };
}

async function violationsIn(folder: string): Promise<Violation[]> {
  const args = [program, "--config", config, "--output-type", "json", "src", "migrations"];
  const output = await new Promise<string>((found) => {
    execFile(process.execPath, args, { cwd: folder, maxBuffer: 64 << 20 }, (_, stdout) => found(stdout));
  });
  return (JSON.parse(output) as { summary: { violations: Violation[] } }).summary.violations;
}

/** One file for each rule that breaks it and nothing that the rule allows. */
const planted: Record<string, { file: string; content: string }> = {
  "numeric-imports": { file: "src/numeric/a.ts", content: 'import "../domain/good.ts";' },
  "domain-imports": { file: "src/domain/a.ts", content: 'import "../simulation/good.ts";' },
  "simulation-imports": { file: "src/simulation/a.ts", content: 'import "../store/good.ts";' },
  "store-imports": { file: "src/store/a.ts", content: 'import "../simulation/good.ts";' },
  "jobs-imports": { file: "src/jobs/a.ts", content: 'import "../http/good.ts";' },
  "documents-imports": { file: "src/documents/a.ts", content: 'import "../store/good.ts";' },
  "http-imports": { file: "src/http/a.ts", content: 'import "../web/good.ts";' },
  "nobody-imports-the-entrances": { file: "src/http/b.ts", content: 'import "../server.ts";' },
  "pure-rooms-use-no-node": { file: "src/domain/b.ts", content: 'import "node:fs";' },
  "pure-rooms-use-few-packages": { file: "src/simulation/b.ts", content: 'import "kysely";' },
  "numeric-imports-no-package": { file: "src/numeric/b.ts", content: 'import "zod";' },
  "src-never-imports-tests-or-migrations-sideways": {
    file: "src/http/c.ts",
    content: 'import "../../migrations/good.ts";',
  },
  "migrations-never-import-src": { file: "migrations/a.ts", content: 'import "../src/domain/good.ts";' },
  "no-cycles": { file: "src/domain/c.ts", content: 'import "./d.ts";' },
  "nothing-unresolved": { file: "src/domain/e.ts", content: 'import "./nowhere.ts";' },
};

const innocent = [
  "src/numeric/good.ts",
  "src/domain/good.ts",
  "src/simulation/good.ts",
  "src/store/good.ts",
  "src/http/good.ts",
  "src/web/good.ts",
  "src/server.ts",
  "migrations/good.ts",
];

let folder = "";
let found: Violation[] = [];

beforeAll(async () => {
  folder = await mkdtemp(join(tmpdir(), "rooms-"));
  const write = async (file: string, content: string) => {
    await mkdir(dirname(join(folder, file)), { recursive: true });
    await writeFile(join(folder, file), content);
  };
  for (const file of innocent) await write(file, "export {};");
  for (const { file, content } of Object.values(planted)) await write(file, content);
  await write("src/domain/d.ts", 'import "./c.ts";');
  await write("tsconfig.json", "{}");
  await copyFile(join(root, "package.json"), join(folder, "package.json"));
  await symlink(join(root, "node_modules"), join(folder, "node_modules"));
  found = await violationsIn(folder);
});

afterAll(() => rm(folder, { recursive: true, force: true }));

describe("the rooms' import rules", () => {
  test.each(Object.keys(planted))("%s catches a planted violation", (rule) => {
    const where = found.filter((violation) => violation.rule.name === rule).map(({ from }) => from);
    expect(where).toContain(planted[rule]!.file);
  });

  test("every rule has a planted violation", async () => {
    const { default: settings } = (await import(config)) as { default: { forbidden: { name: string }[] } };
    expect(Object.keys(planted).sort()).toEqual(settings.forbidden.map(({ name }) => name).sort());
  });

  test("innocent files are left alone", () => {
    expect(found.map(({ from }) => from).filter((file) => innocent.includes(file))).toEqual([]);
  });

  test("the project keeps them", async () => {
    expect(await violationsIn(root)).toEqual([]);
  });
});
