import { spawnSync } from "node:child_process";
import { fileURLToPath } from "node:url";
import { simulate } from "../../src/simulation/simulate.ts";
import { demoDocument } from "./demo-document.ts";

/** Runs this file in a process of its own. @returns the most memory it held, in megabytes */
function peakOf(draws: number): number {
  const file = fileURLToPath(import.meta.url);
  const child = spawnSync(process.execPath, ["--import", "tsx", file, "child", String(draws)], {
    encoding: "utf8",
  });
  if (child.status !== 0) throw new Error(`the memory measurement failed: ${child.stderr}`);
  return Number(child.stdout) / 1024;
}

/** Megabytes a simulation of the demo takes over a process that has loaded everything and simulates nothing. */
export function memoryOverIdle(draws: number): { idle: number; over: number } {
  const idle = peakOf(0);
  return { idle, over: peakOf(draws) - idle };
}

if (process.argv[2] === "child") {
  const draws = Number(process.argv[3]);
  const document = demoDocument();
  if (draws > 0) simulate(document, { draws });
  console.log(process.resourceUsage().maxRSS);
}
