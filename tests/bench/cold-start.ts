import { spawnSync } from "node:child_process";
import { readFileSync } from "node:fs";
import { fileURLToPath } from "node:url";
import { demoFile } from "./demo-document.ts";
import { medianOf, msOf } from "./take-turns.ts";

const root = fileURLToPath(new URL("../../", import.meta.url));

interface Package {
  scripts: { reckon: string };
  bin?: Record<string, string>;
}

/** The commands that answer for a file: what `npm run reckon` runs, and every installed one. */
export function answeringCommands(): string[] {
  const { scripts, bin = {} } = JSON.parse(readFileSync(`${root}package.json`, "utf8")) as Package;
  return [scripts.reckon, ...Object.values(bin).map((file) => `node ${file}`)];
}

/** Milliseconds from starting a process to its whole answer for the demo, the files already in the machine's memory. */
export async function coldMs(command: string, runs: number): Promise<number> {
  const args = [...command.split(" ").slice(1), fileURLToPath(demoFile)];
  const times: number[] = [];
  for (let run = -1; run < runs; run++) {
    const ms = await msOf(() => {
      const { status, stderr } = spawnSync(process.execPath, args, { cwd: root, encoding: "utf8" });
      if (status !== 0) throw new Error(`${command} failed: ${stderr}`);
    });
    if (run >= 0) times.push(ms);
  }
  return medianOf(times);
}
