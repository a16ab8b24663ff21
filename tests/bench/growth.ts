import { engine } from "./contenders.ts";
import { usualParts } from "./demo-document.ts";
import { exponentOf } from "./exponent-of.ts";
import { operationsOf } from "../../src/documents/operations-of.ts";
import { plainDocument } from "./plain-document.ts";
import { printRow } from "./table.ts";
import { type Timed, takeTurns } from "./take-turns.ts";

const partCounts = [15, 30, 60, 120, 240, 600];
const drawCounts = [2_500, 5_000, 10_000, 20_000, 50_000, 100_000];
const usualDraws = 10_000;

/** Prints how this engine's time grows with operations and with draws, without and with the schedule. */
export async function growthRows(turns: number): Promise<void> {
  for (const schedule of [false, true]) {
    const words = `${schedule ? "with" : "without"} the schedule`;
    const documents = partCounts.map(plainDocument);
    await growth(
      `Time by operations, ${usualDraws} draws, ${words}`,
      documents.map((document) => operationsOf(document).length),
      documents.map((document) => engine(document, usualDraws, schedule)),
      turns,
    );
    const usual = plainDocument(usualParts);
    await growth(
      `Time by draws, ${operationsOf(usual).length} operations, ${words}`,
      drawCounts,
      drawCounts.map((draws) => engine(usual, draws, schedule)),
      turns,
    );
  }
}

async function growth(
  what: string,
  sizes: readonly number[],
  contenders: readonly Timed[],
  turns: number,
): Promise<void> {
  const times = await takeTurns(contenders, turns);
  printRow(what);
  sizes.forEach((size, place) => printRow(`  ${size}`, times[place], "ms"));
  const exponent = exponentOf(sizes.map((size, place) => [size, times[place]!] as const));
  printRow("  grows with the power", exponent, "", { about: 1, within: 0.1 });
}
