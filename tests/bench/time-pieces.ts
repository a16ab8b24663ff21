import type { EstimateDocument } from "../../src/domain/estimate-document.ts";
import { compile } from "../../src/simulation/compile.ts";
import { resultOf } from "../../src/simulation/result.ts";
import { simulation } from "../../src/simulation/simulate.ts";
import { msOf, takeTurns } from "./take-turns.ts";

/**
 * Milliseconds of each piece of a simulation, by name. Compiling, drawing and scheduling are one call: the latter two are
 * told by difference.
 */
export async function timePieces(
  document: EstimateDocument,
  draws: number,
  turns: number,
): Promise<[piece: string, ms: number][]> {
  const finished = simulation(document, { draws });
  const pieces = [
    () => compile(document),
    () => simulation(document, { draws }, { schedule: false }),
    () => simulation(document, { draws }),
    () => resultOf(finished),
  ];
  const times = await takeTurns(
    pieces.map((piece) => ({ run: () => msOf(piece), warmUps: 3 })),
    turns,
  );
  const [compileMs, unscheduledMs, scheduledMs, resultMs] = times as [number, number, number, number];
  return [
    ["compile", compileMs],
    ["draws without the schedule", unscheduledMs - compileMs],
    ["schedule", scheduledMs - unscheduledMs],
    ["result", resultMs],
  ];
}
