import { Worker } from "node:worker_threads";
import { DomainError } from "../numeric/domain-error.ts";
import type { DrawingAnswer, DrawingRequest } from "./parallel-worker.ts";

/** A thread that draws together with others. */
export interface DrawingThread {
  /** Above 0, no other thread's in this process. */
  readonly number: number;
  /**
   * Asks for something; requests are answered in order.
   *
   * @throws {DomainError} `worker-lost` when the thread ended before it answered; else what the engine threw
   */
  ask(request: DrawingRequest): Promise<DrawingAnswer>;
  end(): Promise<unknown>;
}

interface Waiting {
  readonly answer: (answer: DrawingAnswer) => void;
  readonly fail: (error: DomainError) => void;
}

/**
 * Starts a thread.
 *
 * @param file its entry
 */
export function startDrawingThread(file: URL): DrawingThread {
  const worker = new Worker(file, { resourceLimits: { maxOldGenerationSizeMb: 512 } });
  const waiting: Waiting[] = [];
  let reason = "the thread ended";
  let ended = false;
  worker.on("message", (answer: DrawingAnswer) => {
    const asker = waiting.shift()!;
    if ("broken" in answer) asker.fail(new DomainError(answer.broken.code, answer.broken.message));
    else asker.answer(answer);
  });
  worker.on("error", (error) => (reason = error.message));
  worker.on("exit", () => {
    ended = true;
    for (const { fail } of waiting.splice(0)) fail(lost());
  });
  const lost = () => new DomainError("worker-lost", `the simulation did not finish: ${reason}`);
  return {
    number: worker.threadId,
    ask: (request) =>
      new Promise((answer, fail) => {
        if (ended) return fail(lost());
        waiting.push({ answer, fail });
        worker.postMessage(request);
      }),
    end: () => worker.terminate(),
  };
}
