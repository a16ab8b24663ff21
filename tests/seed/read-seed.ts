import { readdirSync, readFileSync } from "node:fs";
import { fileURLToPath } from "node:url";

const seedFolder = new URL("../../seed/", import.meta.url);

/** The names of the JSON files in a folder of the seed, sorted. */
export function seedFileNames(folder: string): string[] {
  return readdirSync(fileURLToPath(new URL(`${folder}/`, seedFolder)))
    .filter((name) => name.endsWith(".json"))
    .sort();
}

/** One file of the seed, parsed as JSON and nothing more. */
export function readSeed(path: string): unknown {
  return JSON.parse(readFileSync(fileURLToPath(new URL(path, seedFolder)), "utf8"));
}
