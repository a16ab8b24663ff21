import { spawnSync } from "node:child_process";
import { readFileSync } from "node:fs";
import { resolve } from "node:path";
import { describe, expect, test } from "vitest";

const root = resolve(import.meta.dirname, "../..");
const readme = readFileSync(resolve(root, "README.md"), "utf8");

/** Indented blocks that begin with `$ npm run --silent reckon -- ...`: a command and what it prints. */
function examples(): { args: string[]; printed: string[] }[] {
  const blocks = readme.split(/\n(?! {4}|\n)/).flatMap((text) => text.match(/^ {4}\$ [^]*/m) ?? []);
  return blocks.map((block) => {
    const [command, ...printed] = block
      .trimEnd()
      .split("\n")
      .map((line) => line.slice(4));
    return { args: command!.replace("$ npm run --silent reckon -- ", "").split(" "), printed };
  });
}

/** Pieces of the output in order; a line `[...]` stands for what is left out. */
function piecesOf(printed: string[]): string[] {
  return printed
    .join("\n")
    .split(/^\[\.\.\.\]$/m)
    .map((piece) => piece.trim())
    .filter((piece) => piece !== "");
}

describe("README (frozen: guards change, not truth)", () => {
  test("shows examples", () => {
    expect(examples().length).toBeGreaterThanOrEqual(2);
  });

  test.each(examples())("shows what reckon $args prints", ({ args, printed }) => {
    const run = spawnSync(process.execPath, ["src/cli-start.mjs", ...args], {
      cwd: root,
      encoding: "utf8",
      input: args[0] === "-" ? brokenDocument() : "",
    });
    let rest = run.stdout + run.stderr;
    for (const piece of piecesOf(printed)) {
      const place = rest.indexOf(piece);
      if (place < 0) expect(rest).toContain(piece);
      rest = rest.slice(place + piece.length);
    }
  });

  test("shows the smallest example as it is", () => {
    const smallest = readFileSync(resolve(root, "seed/examples/smallest.json"), "utf8").trimEnd();
    expect(readme).toContain(
      smallest
        .split("\n")
        .map((line) => `    ${line}`)
        .join("\n"),
    );
  });

  test("opens with the job, then the two commands", () => {
    const [, job, heading] = readme.split("\n\n");
    expect(job).toMatch(/^People who restore old motorcycles/);
    expect(heading).toBe("## Two commands");
    expect(readme).toContain("    npm install && npm start\n");
    expect(readme).toContain("    npm install && npm test\n");
  });
});

/** The smallest example with the faults that the README describes. */
function brokenDocument(): string {
  return readFileSync(resolve(root, "seed/examples/smallest.json"), "utf8")
    .replace('"p10": 350', '"p10": 700')
    .replace('"trade": "paint"', '"trade": "paint", "supplier": "hallow-finishers"')
    .replace('"band": "tired"', '"odds": { "tired": 0.5, "poor": 0.4 }');
}
