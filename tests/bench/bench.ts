import { cpus, loadavg } from "node:os";
import { simulate } from "../../src/simulation/simulate.ts";
import { benchDocument } from "./bench-document.ts";
import { demoDocument, usualParts } from "./demo-document.ts";
import { memoryOverIdle } from "./peak-memory.ts";
import { medianMs, timePieces } from "./time-pieces.ts";

const draws = 10_000;
const runs = 15;
const growthRuns = 7;
const partCounts = [15, 30, 60, 120];
const drawCounts = [2_500, 5_000, 10_000, 20_000, 40_000];
const memoryDraws = 100_000;

/** Slope of log y over log x by least squares: 1 is linear growth. */
function exponentOf(points: readonly (readonly [number, number])[]): number {
  const logs = points.map(([x, y]) => [Math.log(x), Math.log(y)] as const);
  const meanX = logs.reduce((sum, [x]) => sum + x, 0) / logs.length;
  const meanY = logs.reduce((sum, [, y]) => sum + y, 0) / logs.length;
  const above = logs.reduce((sum, [x, y]) => sum + (x - meanX) * (y - meanY), 0);
  return above / logs.reduce((sum, [x]) => sum + (x - meanX) ** 2, 0);
}

function row(what: string, figure: number, unit: string): void {
  console.log(`${what.padEnd(58)}${figure.toFixed(figure < 10 ? 2 : 1).padStart(10)} ${unit}`);
}

function growth(what: string, points: readonly (readonly [number, number])[], unit: string): void {
  for (const [size, ms] of points) row(`  ${size} ${unit}`, ms, "ms");
  row(`${what}: time grows with the power`, exponentOf(points), "");
}

const processor = cpus()[0]?.model ?? "unknown processor";
const busy = `load ${loadavg()[0]!.toFixed(1)} on ${cpus().length} cores at the start`;
console.log(`Node ${process.version}, ${processor}, ${busy}; one thread, medians, warm\n`);

const demo = demoDocument();
console.log(`${demo.title}, ${draws} draws, ${runs} runs`);
for (const [piece, ms] of timePieces(demo, draws, runs)) row(`  ${piece}`, ms, "ms");

const timeOf = (partCount: number, drawCount: number) => {
  const document = benchDocument(partCount);
  return medianMs(growthRuns, () => void simulate(document, { draws: drawCount }));
};
console.log(`\nGrowth in parts, ${draws} draws`);
growth(
  "parts",
  partCounts.map((count) => [count, timeOf(count, draws)] as const),
  "parts",
);
console.log(`\nGrowth in draws, ${usualParts} parts`);
growth(
  "draws",
  drawCounts.map((count) => [count, timeOf(usualParts, count)] as const),
  "draws",
);

console.log("\nMemory");
const { idle, over } = memoryOverIdle(memoryDraws);
row("  idle process", idle, "MB");
row(`  more for the demo at ${memoryDraws} draws`, over, "MB");
