import { type ChildProcess, fork } from "node:child_process";
import { once } from "node:events";
import { fileURLToPath } from "node:url";
import type { EstimateDocument } from "../../src/domain/estimate-document.ts";
import type { SimulationOptions } from "../../src/domain/simulation-options.ts";
import { type Runs, joinRuns } from "./accuracy-runs.ts";
import type { SeedsTask } from "./accuracy-worker.ts";

const workerFile = fileURLToPath(new URL("./accuracy-worker.ts", import.meta.url));

/** Seeds a process is given at a time. */
const seedsAtATime = 25;

/** Processes that run a document with many seeds. */
export interface SeedsPool {
  /** @param firstSeed the runs take it and those after it */
  run(
    document: EstimateDocument,
    options: SimulationOptions,
    count: number,
    firstSeed?: number,
  ): Promise<Runs>;
  close(): void;
}

/** Starts the processes. */
export function createSeedsPool(processes: number): SeedsPool {
  const children = Array.from({ length: processes }, () =>
    fork(workerFile, { execArgv: ["--import", "tsx"], serialization: "advanced" }),
  );
  return {
    async run(document, options, count, firstSeed = 1) {
      const seeds = Array.from({ length: count }, (_, run) => firstSeed + run);
      const tasks: SeedsTask[] = [];
      for (let start = 0; start < count; start += seedsAtATime) {
        tasks.push({ document, options, seeds: seeds.slice(start, start + seedsAtATime) });
      }
      const pieces: Runs[] = [];
      let next = 0;
      const work = async (child: ChildProcess) => {
        for (let task = next++; task < tasks.length; task = next++)
          pieces[task] = await ask(child, tasks[task]!);
      };
      await Promise.all(children.map(work));
      return joinRuns(pieces);
    },
    close: () => {
      for (const child of children) child.kill();
    },
  };
}

async function ask(child: ChildProcess, task: SeedsTask): Promise<Runs> {
  const over = new AbortController();
  try {
    const { signal } = over;
    const answer = once(child, "message", { signal }) as Promise<[Runs]>;
    const lost = once(child, "exit", { signal }).then(([code, by]) => {
      throw new Error(`a process that ran seeds has ended: ${String(by ?? code)}`);
    });
    child.send(task);
    return (await Promise.race([answer, lost]))[0];
  } finally {
    over.abort();
  }
}
