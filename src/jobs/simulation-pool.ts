import { fileURLToPath } from "node:url";
import { Piscina } from "piscina";
import type { EstimateDocument } from "../domain/estimate-document.ts";
import type { EstimateResult } from "../domain/estimate-result.ts";
import type { SimulationOptions } from "../domain/simulation-options.ts";
import { DomainError } from "../numeric/domain-error.ts";
import type { SimulationAnswer } from "./simulation-worker.ts";

/** Worker threads that simulate, so that the event loop never does. */
export interface SimulationPool {
  /**
   * @param signal gives the simulation up, running or waiting
   * @throws {DomainError} `pool-full` at once when too many wait already; `simulation-cancelled` after the
   *   signal; `worker-lost` when the thread died or ran out of memory; `pool-closed` after the end; else what
   *   the engine threw
   */
  run(document: EstimateDocument, options: SimulationOptions, signal?: AbortSignal): Promise<EstimateResult>;
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
 * @param options.worker file of the worker, for tests of broken ones
 */
export function createSimulationPool({
  threads,
  mostWaiting = 16,
  worker = workerFile,
}: {
  threads: number;
  mostWaiting?: number;
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

  async function run(
    document: EstimateDocument,
    options: SimulationOptions,
    signal?: AbortSignal,
  ): Promise<EstimateResult> {
    if (closed) throw new DomainError("pool-closed", "no simulation runs any more");
    // Counted here, because the library's own bound leaves out tasks that carry a signal.
    if (underWay >= piscina.maxThreads + mostWaiting) throw poolFull(underWay);
    underWay += 1;
    try {
      const answer = await piscina.run({ document, options }, signal && { signal });
      if ("result" in answer) return answer.result;
      throw new DomainError(answer.broken.code, answer.broken.message);
    } catch (error) {
      throw error instanceof DomainError ? error : lostError(error, signal);
    } finally {
      underWay -= 1;
    }
  }

  return {
    run,
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
