import { writeFileSync } from "node:fs";
import { join } from "node:path";
import type { EstimateDocument } from "../../src/domain/estimate-document.ts";
import { type Contender, engine, numpy, obvious } from "./contenders.ts";
import { operationsOf } from "../../src/documents/operations-of.ts";
import { printRow } from "./table.ts";
import { takeTurns } from "./take-turns.ts";

/** A document to compare on, with the times aimed at. */
export interface Comparison {
  readonly document: EstimateDocument;
  readonly turns: number;
  /** Turns the peers take part in: they are slow. */
  readonly peerTurns: number;
  readonly unscheduledMs?: number;
  readonly scheduledMs?: number;
  /** What a good NumPy script took: a slower one would flatter this engine. */
  readonly tablesMs?: number;
  readonly exactMs?: number;
}

/** A peer with the least its time over this engine's should be, and the milliseconds a good one took. */
interface Peer {
  readonly contender: Contender;
  readonly atLeast?: number;
  readonly goodMs?: number | undefined;
}

const atMost = (ms: number | undefined) => (ms === undefined ? undefined : { atMost: ms });

/** Times this engine and its peers on one document, in turns, and prints a row each. */
export async function compare(comparison: Comparison, draws: number, folder: string): Promise<void> {
  const { document, turns, peerTurns, unscheduledMs, scheduledMs } = comparison;
  const own = [engine(document, draws, false), engine(document, draws, true)];
  const peers = peerTurns === 0 ? [] : peersOf(comparison, draws, folder);
  const rivals = peers.map(({ contender }) => ({ ...contender, mostTurns: peerTurns }));
  const [unscheduled, scheduled, ...others] = await takeTurns([...own, ...rivals], turns);
  printRow(`${document.title}, ${operationsOf(document).length} operations, ${draws} draws`);
  printRow(`  ${own[0]!.name}`, unscheduled, "ms", atMost(unscheduledMs));
  printRow(`  ${own[1]!.name}`, scheduled, "ms", atMost(scheduledMs));
  peers.forEach((peer, place) => printPeer(peer, others[place], unscheduled!));
}

function peersOf({ document, tablesMs, exactMs }: Comparison, draws: number, folder: string): Peer[] {
  const file = join(folder, "document.json");
  writeFileSync(file, JSON.stringify(document));
  return [
    { contender: numpy(file, draws, "tables"), atLeast: 5, goodMs: tablesMs },
    { contender: numpy(file, draws, "exact"), atLeast: 20, goodMs: exactMs },
    { contender: obvious(document, draws) },
  ];
}

function printPeer({ contender, atLeast, goodMs }: Peer, ms: number | undefined, engineMs: number): void {
  if (ms === undefined) {
    printRow(`  ${contender.name}: cannot run here`);
    return;
  }
  printRow(`  ${contender.name}`, ms, "ms");
  if (goodMs !== undefined) {
    printRow(`    over the ${goodMs} ms of a good script`, ms / goodMs, "x", { atMost: 1.3 });
  }
  printRow(
    "    over this engine without the schedule",
    ms / engineMs,
    "x",
    atLeast === undefined ? undefined : { atLeast },
  );
}
