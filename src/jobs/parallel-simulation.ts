import type { EstimateDocument } from "../domain/estimate-document.ts";
import type { EstimateResult } from "../domain/estimate-result.ts";
import { type SimulationOptions, withDefaults } from "../domain/simulation-options.ts";
import type { DomainError } from "../numeric/domain-error.ts";
import { replicateCount } from "../simulation/replicates.ts";
import { resultParts } from "../simulation/result.ts";
import type { OutcomeColumns } from "../simulation/outcome-columns.ts";
import { type Claims, closeClaims, makeClaims, releaseClaims } from "./claims.ts";
import { type DrawingCrew, type Work, makeDrawingCrew } from "./drawing-crew.ts";
import type { DrawingThread } from "./drawing-thread.ts";
import type { DrawingAnswer } from "./parallel-worker.ts";

/** Warm threads that draw one simulation together, one simulation after the other. */
export interface ParallelSimulator {
  /**
   * @returns what `simulate()` returns, bit for bit, whoever draws what
   * @throws {DomainError} `worker-lost` when thread after thread dies; `pool-closed` after the end; else what the engine
   *   threw
   */
  simulate(document: EstimateDocument, options: SimulationOptions): Promise<EstimateResult>;
  /** Ends the threads without waiting. */
  close(): Promise<void>;
}

const workerFile = new URL("./parallel-entry.mjs", import.meta.url);

/**
 * Starts threads.
 *
 * @param options.threads at least 1
 * @param options.worker file of the worker, for tests of dying ones
 */
export function createParallelSimulator({
  threads,
  worker = workerFile,
}: {
  threads: number;
  worker?: URL;
}): ParallelSimulator {
  const crew = makeDrawingCrew(threads, worker);
  let last: Promise<unknown> = Promise.resolve();
  return {
    simulate: (document, options) => {
      const result = last.then(() => simulateTogether(crew, document, options));
      last = result.catch(() => undefined);
      return result;
    },
    close: () => crew.end(),
  };
}

/** Threads that may die in one simulation before it is given up. */
const mostLost = 3;

async function simulateTogether(
  crew: DrawingCrew,
  document: EstimateDocument,
  options: SimulationOptions,
): Promise<EstimateResult> {
  const replicates = makeClaims(replicateCount);
  const parts = makeClaims(resultParts.length);
  let lost = 0;
  /** What a dead thread was at is nobody's again. */
  const onLost = (thread: DrawingThread, error: DomainError) => {
    for (const claims of [replicates, parts]) releaseClaims(claims, thread.number);
    lost += 1;
    if (lost > mostLost) throw error;
  };
  const first = <T>(work: Work<T>) => crew.at(0, work, onLost);
  const everyone = <T>(work: Work<T>) =>
    Promise.all(crew.places.map((place) => crew.at(place, work, onLost)));

  const asked = withDefaults(options);
  const { draws } = asked;
  if (draws === "auto") {
    // How many draws there will be depends on what is drawn, so one thread makes them all.
    const { result } = await first((thread) => thread.ask({ ask: "simulate", document, options }));
    return result!;
  }
  const ready = new WeakMap<DrawingThread, Promise<DrawingAnswer>>();
  const prepare = (thread: DrawingThread) => {
    const already = ready.get(thread) ?? thread.ask({ ask: "prepare", document, options: asked, draws });
    ready.set(thread, already);
    return already;
  };
  const share = (ask: "draw" | "measure", outcomes: OutcomeColumns, claims: Claims) =>
    everyone(async (thread) => {
      await prepare(thread);
      return thread.ask({ ask, outcomes, claims, claimant: thread.number });
    });
  try {
    await everyone(prepare);
    const { outcomes } = await first(async (thread) => {
      await prepare(thread);
      return thread.ask({ ask: "make room" });
    });
    await share("draw", outcomes!, replicates);
    const measured = await share("measure", outcomes!, parts);
    const { result } = await first((thread) =>
      thread.ask({ ask: "put together", parts: measured.flatMap((answer) => answer.parts!) }),
    );
    return result!;
  } finally {
    closeClaims(replicates);
  }
}
