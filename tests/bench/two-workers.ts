import type { EstimateDocument } from "../../src/domain/estimate-document.ts";
import { createParallelSimulator } from "../../src/jobs/parallel-simulation.ts";
import { createSimulationPool } from "../../src/jobs/simulation-pool.ts";
import { engine } from "./contenders.ts";
import { printRow } from "./table.ts";
import { msOf, takeTurns } from "./take-turns.ts";

const threads = 2;
const target = { atMost: 0.6 };

/** Prints what two warm workers save, one simulation divided between them, and one each: .5 where nothing is lost. */
export async function twoWorkersRows(
  document: EstimateDocument,
  draws: number,
  turns: number,
): Promise<void> {
  const together = createParallelSimulator({ threads });
  const pool = createSimulationPool({ threads });
  const one = () => pool.run(document, { draws });
  const contenders = [
    engine(document, draws, true),
    { run: () => msOf(() => together.simulate(document, { draws })), warmUps: 3 },
    { run: () => msOf(() => one().then(one)) },
    { run: () => msOf(() => Promise.all([one(), one()])), warmUps: 3 },
  ];
  try {
    const times = await takeTurns(contenders, turns);
    const [aloneMs, togetherMs, inTurnMs, atOnceMs] = times as [number, number, number, number];
    printRow(`Two warm workers, ${document.title}, ${draws} draws, with the schedule`);
    printRow("  one simulation on one thread", aloneMs, "ms");
    printRow("  one simulation on two workers", togetherMs, "ms");
    printRow("    over on one thread", togetherMs / aloneMs, "x", target);
    printRow("  two simulations, one after the other", inTurnMs, "ms");
    printRow("  two simulations at once", atOnceMs, "ms");
    printRow("    over one after the other", atOnceMs / inTurnMs, "x", target);
  } finally {
    await Promise.all([together.close(), pool.close()]);
  }
}
