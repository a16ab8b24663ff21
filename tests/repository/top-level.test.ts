import { execFileSync } from "node:child_process";
import { resolve } from "node:path";
import { expect, test } from "vitest";

const root = resolve(import.meta.dirname, "../..");

test("the top level holds what it should and nothing else", () => {
  const tracked = execFileSync("git", ["ls-files", "-z", "--cached", "--others", "--exclude-standard"], {
    cwd: root,
    encoding: "utf8",
  });
  const top = new Set(
    tracked
      .split("\0")
      .filter(Boolean)
      .map((path) => path.split("/")[0]),
  );
  expect([...top].sort()).toEqual(
    [
      ".ci",
      ".gitignore",
      "DEVELOPERS.md",
      "LICENSE",
      "README.md",
      "migrations",
      "openapi",
      "package-lock.json",
      "package.json",
      "seed",
      "src",
      "tests",
      "tsconfig.json",
    ].sort(),
  );
});
