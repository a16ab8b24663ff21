import { accessSync, constants } from "node:fs";
import { delimiter, join } from "node:path";

/** The first Chromium on PATH. */
export function findChromium(): string | undefined {
  const folders = (process.env["PATH"] ?? "").split(delimiter);
  return ["chromium", "chromium-browser"]
    .flatMap((name) => folders.map((folder) => join(folder, name)))
    .find(isProgram);
}

function isProgram(path: string): boolean {
  try {
    accessSync(path, constants.X_OK);
    return true;
  } catch {
    return false;
  }
}
