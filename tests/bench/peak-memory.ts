import { spawnSync } from "node:child_process";
import { existsSync, readFileSync } from "node:fs";
import { fileURLToPath } from "node:url";
import { simulate } from "../../src/simulation/simulate.ts";
import { demoDocument, usualParts } from "./demo-document.ts";
import { plainDocument } from "./plain-document.ts";

const documents = { demo: demoDocument, plain: () => plainDocument(usualParts) };

/** Runs this file in a process of its own. @returns the most memory it held, in megabytes */
function peakOf(which: keyof typeof documents, draws: number): number {
  const file = fileURLToPath(import.meta.url);
  const args = ["--import", "tsx", file, "child", which, String(draws)];
  const child = spawnSync(process.execPath, args, { encoding: "utf8" });
  if (child.status !== 0) throw new Error(`the memory measurement failed: ${child.stderr}`);
  return Number(child.stdout) / 1024;
}

/** Megabytes a simulation takes over a process that has loaded everything and simulates nothing. */
export function memoryOverIdle(which: keyof typeof documents, draws: number): { idle: number; over: number } {
  const idle = peakOf(which, 0);
  return { idle, over: peakOf(which, draws) - idle };
}

/** Kilobytes. What the system tells of a started process includes what its parent held: Linux's own status does not. */
function peakOfThis(): number {
  const status = "/proc/self/status";
  const peak = existsSync(status)
    ? /^VmHWM:\s+(\d+) kB$/m.exec(readFileSync(status, "utf8"))?.[1]
    : undefined;
  return peak === undefined ? process.resourceUsage().maxRSS : Number(peak);
}

if (process.argv[2] === "child") {
  const draws = Number(process.argv[4]);
  const document = documents[process.argv[3] as keyof typeof documents]();
  if (draws > 0) simulate(document, { draws });
  console.log(peakOfThis());
}
