import { spawn } from "node:child_process";
import { mkdtemp, readFile, rm, writeFile } from "node:fs/promises";
import { tmpdir } from "node:os";
import { join, resolve } from "node:path";
import { afterAll, beforeAll, describe, expect, test } from "vitest";
import { estimateResultSchema } from "../src/domain/estimate-result.ts";

const root = resolve(import.meta.dirname, "..");
const smallest = join(root, "seed/examples/smallest.json");
const demo = join(root, "seed/demo/barn-stored-single.json");

interface Ending {
  status: number | null;
  stdout: string;
  stderr: string;
}

function reckon(args: string[], input = ""): Promise<Ending> {
  const child = spawn(process.execPath, ["src/cli-start.mjs", ...args], { cwd: root });
  let stdout = "";
  let stderr = "";
  child.stdout.on("data", (piece: Buffer) => (stdout += piece.toString()));
  child.stderr.on("data", (piece: Buffer) => (stderr += piece.toString()));
  child.stdin.on("error", () => undefined);
  child.stdin.end(input);
  return new Promise((ended) => child.on("close", (status) => ended({ status, stdout, stderr })));
}

let folder = "";
beforeAll(async () => void (folder = await mkdtemp(join(tmpdir(), "reckon-"))));
afterAll(() => rm(folder, { recursive: true, force: true }));

let files = 0;
async function fileWith(content: string): Promise<string> {
  const file = join(folder, `${++files}.json`);
  await writeFile(file, content);
  return file;
}

/** A refusal: status 2, nothing on standard output, no trace of the program's insides. */
function expectRefusal({ status, stdout, stderr }: Ending): string {
  expect(status).toBe(2);
  expect(stdout).toBe("");
  expect(stderr).not.toMatch(/\n\s+at |node:internal|\.ts:\d/);
  return stderr;
}

describe("reckon answers", () => {
  test("in words and figures within 80 columns", async () => {
    const { status, stdout, stderr } = await reckon([demo, "--draws", "1600"]);
    expect(stderr).toBe("");
    expect(status).toBe(0);
    expect(stdout).toContain("net of what it sells for");
    expect(stdout).toContain("Restoration cost");
    expect(stdout).toContain("Chance of exceeding the budget of 14,000");
    for (const line of stdout.split("\n")) expect(line.length).toBeLessThanOrEqual(80);
  });

  test("as JSON with the options asked for, the same on every run", async () => {
    const options = ["--json", "--draws", "320", "--seed", "7", "--sampling", "independent"];
    const first = await reckon([demo, ...options]);
    const result = estimateResultSchema.parse(JSON.parse(first.stdout));
    expect(result.engine).toMatchObject({ draws: 320, seed: 7, sampling: "independent" });
    expect((await reckon([demo, ...options])).stdout).toBe(first.stdout);
    expect((await reckon([demo, "--json", "--draws", "320", "--seed", "8"])).stdout).not.toBe(first.stdout);
  });

  test("for a document on standard input, a byte order mark included", async () => {
    const { status, stdout } = await reckon(
      ["-", "--draws", "64"],
      `\uFEFF${await readFile(smallest, "utf8")}`,
    );
    expect(status).toBe(0);
    expect(stdout).toContain("cost");
  });

  test("somebody who stops reading early, without a word", async () => {
    const child = spawn(process.execPath, ["src/cli-start.mjs", demo, "--json", "--draws", "64"], {
      cwd: root,
    });
    child.stdout.destroy();
    let stderr = "";
    child.stderr.on("data", (piece: Buffer) => (stderr += piece.toString()));
    const status = await new Promise((ended) => child.on("close", ended));
    expect({ status, stderr }).toEqual({ status: 0, stderr: "" });
  });

  test("with its usage when asked", async () => {
    const { status, stdout } = await reckon(["--help"]);
    expect(status).toBe(0);
    expect(stdout).toContain("Usage:");
  });
});

describe("reckon refuses", () => {
  test("a broken document, naming every place, value and rule", async () => {
    const document = JSON.parse(await readFile(smallest, "utf8")) as Record<string, unknown>;
    const broken = { ...document, pricesAsOf: "June", acceptableRisk: 1.5, colour: "red" };
    const stderr = expectRefusal(await reckon([await fileWith(JSON.stringify(broken))]));
    expect(stderr).toMatch(/\/pricesAsOf\s+"June"\s+.*YYYY-MM/);
    expect(stderr).toMatch(/\/acceptableRisk\s+1\.5\s+.*at most 1/);
    expect(stderr).toMatch(/\/colour\s+"red"\s+.*unknown field/);
  });

  test("a field whose name would command the terminal, without obeying it", async () => {
    const document = JSON.parse(await readFile(smallest, "utf8")) as Record<string, unknown>;
    const broken = { ...document, "\u001b]0;owned\u0007": 1, title: "\u001b[2J" };
    expect(expectRefusal(await reckon([await fileWith(JSON.stringify(broken))]))).not.toMatch(/[^\P{Cc}\n]/u);
  });

  test("a missing file", async () => {
    expect(expectRefusal(await reckon([join(folder, "nowhere.json")]))).toMatch(
      /nowhere\.json: cannot be read: there is no such file/,
    );
  });

  test("a folder", async () => {
    expect(expectRefusal(await reckon([folder]))).toContain("cannot be read: it is a folder");
  });

  test.each(["", "{", "[1,]", "\u0000"])("unreadable JSON %j", async (content) => {
    expect(expectRefusal(await reckon([await fileWith(content)]))).toContain("not JSON");
  });

  test.each(["null", "3", "[]", '"text"'])("JSON that is no document: %s", async (content) => {
    expect(expectRefusal(await reckon([await fileWith(content)]))).toContain("not a valid estimate document");
  });

  test("nesting a hundred thousand deep", async () => {
    const content = `{"title":${"[".repeat(100_000)}${"]".repeat(100_000)}}`;
    expect(expectRefusal(await reckon([await fileWith(content)]))).toContain("nest");
  });

  test.each([
    [["--draws", "0"], "--draws"],
    [["--draws", "1e3"], "--draws"],
    [["--draws", "2000000"], "--draws"],
    [["--draws"], "draws"],
    [["--seed", "-1"], "seed"],
    [["--sampling", "sobol"], "--sampling"],
    [["--colour"], "colour"],
  ])("%j", async (args, named) => {
    expect(expectRefusal(await reckon([smallest, ...args]))).toContain(named);
  });

  test("no file, or two", async () => {
    expect(expectRefusal(await reckon([]))).toContain("Usage:");
    expect(expectRefusal(await reckon([smallest, smallest]))).toContain("Usage:");
  });
});
