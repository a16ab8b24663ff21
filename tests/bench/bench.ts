import { mkdtempSync, rmSync } from "node:fs";
import { cpus, loadavg, tmpdir } from "node:os";
import { join } from "node:path";
import { benchDocument } from "./bench-document.ts";
import { answeringCommands, coldMs } from "./cold-start.ts";
import { type Comparison, compare } from "./compare.ts";
import { demoDocument, usualParts } from "./demo-document.ts";
import { growthRows } from "./growth.ts";
import { numpyFound } from "./numpy-peer.ts";
import { memoryOverIdle } from "./peak-memory.ts";
import { plainDocument } from "./plain-document.ts";
import { printHead, printRow } from "./table.ts";
import { timePieces } from "./time-pieces.ts";
import { twoWorkersRows } from "./two-workers.ts";

const quick = process.argv.includes("--quick");
const turns = quick ? 3 : 7;
const draws = 10_000;
const manyDraws = 100_000;

const plain = plainDocument(usualParts);
const demo = demoDocument();

/** The plain document's targets, on two shared cores; the NumPy script is measured against what an expert's took. */
const comparisons: Comparison[] = [
  { document: plain, turns, peerTurns: 3, unscheduledMs: 35, scheduledMs: 90, tablesMs: 165, exactMs: 708 },
  { document: demo, turns, peerTurns: 3 },
  { document: benchDocument(usualParts), turns, peerTurns: 3 },
  ...[200, 600].flatMap((parts) =>
    [plainDocument(parts), benchDocument(parts)].map((document) => ({ document, turns: 3, peerTurns: 1 })),
  ),
];

function machine(): string {
  const processor = cpus()[0]?.model ?? "unknown processor";
  const load = loadavg().map((each) => each.toFixed(1));
  return `Node ${process.version}, ${cpus().length} cores of ${processor}, load ${load.join(" ")}`;
}

async function compareAll(folder: string): Promise<void> {
  for (const each of quick ? comparisons.slice(0, 2) : comparisons) await compare(each, draws, folder);
  const many = { document: plain, turns: 3, peerTurns: 0, unscheduledMs: 350, scheduledMs: 900 };
  await compare(many, manyDraws, folder);
}

async function coldStarts(): Promise<void> {
  printRow("A process from its start to the demo's answer");
  for (const command of answeringCommands())
    printRow(`  ${command}`, await coldMs(command, quick ? 3 : 7), "ms", { atMost: 600 });
}

function memory(): void {
  printRow(`Memory over an idle process, ${manyDraws} draws`);
  for (const which of ["plain", "demo"] as const) {
    const { idle, over } = memoryOverIdle(which, manyDraws);
    printRow(`  ${which} document, over ${idle.toFixed(0)} MB`, over, "MB", { atMost: 200 });
  }
}

async function pieces(): Promise<void> {
  for (const document of [plain, demo]) {
    printRow(`Pieces of ${document.title}, ${draws} draws`);
    for (const [piece, ms] of await timePieces(document, draws, turns)) printRow(`  ${piece}`, ms, "ms");
  }
}

console.log(
  `${machine()} at the start; medians, taken in turns; warm and on one thread unless said otherwise`,
);
console.log(numpyFound?.stdout.trim() ?? "No Python with NumPy and SciPy: its rows stay empty");
if (loadavg()[0]! > 1) console.log("Other work runs on this machine: times are longer than they would be");
const folder = mkdtempSync(join(tmpdir(), "bench-"));
try {
  printHead();
  await compareAll(folder);
  await growthRows(quick ? 1 : 3);
  await twoWorkersRows(plain, draws, turns);
  await twoWorkersRows(plain, manyDraws, 3);
  await coldStarts();
  memory();
  await pieces();
} finally {
  rmSync(folder, { recursive: true });
}
console.log(`${machine()} at the end`);
