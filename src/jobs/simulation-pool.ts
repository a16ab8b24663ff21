import { fileURLToPath } from "node:url";
import { MessageChannel } from "node:worker_threads";
import { Piscina } from "piscina";
import type { EstimateDocument } from "../domain/estimate-document.ts";
import type { EstimateResult } from "../domain/estimate-result.ts";
import type { SimulationOptions } from "../domain/simulation-options.ts";
import { DomainError } from "../numeric/domain-error.ts";
import type { SimulationAdvance } from "./run-with-progress.ts";
import type { SimulationAnswer, SimulationTask } from "./simulation-worker.ts";

/** Worker threads that simulate, so that the event loop never does. */
export interface SimulationPool {
  /**
   * @param signal gives the simulation up, running or waiting
   * @throws {DomainError} `pool-full` at once when too many wait already; `simulation-cancelled` after the
   *   signal; `worker-lost` when the thread died or ran out of memory; `pool-closed` after the end; else what
   *   the engine threw
   */
  run(document: EstimateDocument, options: SimulationOptions, signal?: AbortSignal): Promise<EstimateResult>;
  /**
   * The same, told on the way how far it is; waits for a thread however many do.
   *
   * @param onAdvance progress rises from call to call, and so do the draws of partial results
   * @throws {DomainError} as `run`, but for `pool-full`
   */
  runWithProgress(
    document: EstimateDocument,
    options: SimulationOptions,
    onAdvance: (advance: SimulationAdvance) => void,
    signal?: AbortSignal,
  ): Promise<EstimateResult>;
  /** Whether there are threads to run on. */
  isAlive(): boolean;
  /** Ends the threads without waiting: a simulation leaves nothing behind. */
  close(): Promise<void>;
}

const workerFile = new URL("./worker-entry.mjs", import.meta.url);

/**
 * Starts warm worker threads.
 *
 * @param options.threads at least 1
 * @param options.mostWaiting simulations that may wait for a thread
 * @param options.onTimed told of every simulation what draws it made and how long a thread took
 * @param options.worker file of the worker, for tests of broken ones
 */
export function createSimulationPool({
  threads,
  mostWaiting = 16,
  onTimed,
  worker = workerFile,
}: {
  threads: number;
  mostWaiting?: number;
  onTimed?: (document: EstimateDocument, draws: number, ms: number) => void;
  worker?: URL;
}): SimulationPool {
  const piscina = new Piscina<unknown, SimulationAnswer>({
    filename: fileURLToPath(worker),
    minThreads: Math.max(1, threads),
    maxThreads: Math.max(1, threads),
    execArgv: [],
    resourceLimits: { maxOldGenerationSizeMb: 512 },
    recordTiming: false,
  });
  // A thread that dies between tasks is replaced by the pool; without a listener it would end the process.
  piscina.on("error", () => undefined);
  let underWay = 0;
  let closed = false;

  async function runTask(task: SimulationTask, signal: AbortSignal | undefined): Promise<EstimateResult> {
    if (closed) throw new DomainError("pool-closed", "no simulation runs any more");
    const transferList = task.advances ? [task.advances] : [];
    try {
      const answer = await piscina.run(task, { transferList, signal: signal ?? null });
      if ("broken" in answer) throw new DomainError(answer.broken.code, answer.broken.message);
      onTimed?.(task.document, answer.result.engine.draws, answer.ms);
      return answer.result;
    } catch (error) {
      throw error instanceof DomainError ? error : lostError(error, signal);
    }
  }

  async function run(
    document: EstimateDocument,
    options: SimulationOptions,
    signal?: AbortSignal,
  ): Promise<EstimateResult> {
    // Counted here, because the library's own bound leaves out tasks that carry a signal.
    if (underWay >= piscina.maxThreads + mostWaiting) throw poolFull(underWay);
    underWay += 1;
    try {
      return await runTask({ document, options }, signal);
    } finally {
      underWay -= 1;
    }
  }

  async function runWithProgress(
    document: EstimateDocument,
    options: SimulationOptions,
    onAdvance: (advance: SimulationAdvance) => void,
    signal?: AbortSignal,
  ): Promise<EstimateResult> {
    const { port1: heard, port2: advances } = new MessageChannel();
    heard.on("message", onAdvance);
    try {
      return await runTask({ document, options, advances }, signal);
    } finally {
      heard.close();
    }
  }

  return {
    run,
    runWithProgress,
    isAlive: () => !closed && piscina.threads.length > 0,
    close: () => {
      closed = true;
      return piscina.destroy();
    },
  };
}

function poolFull(underWay: number): DomainError {
  return new DomainError("pool-full", `${underWay} simulations run or wait already, the most there may be`);
}

function lostError(error: unknown, signal: AbortSignal | undefined): DomainError {
  if (signal?.aborted)
    return new DomainError("simulation-cancelled", "the simulation was given up before its end");
  const reason = error instanceof Error ? error.message : String(error);
  return Object.assign(new DomainError("worker-lost", `the simulation did not finish: ${reason}`), {
    cause: error,
  });
}
