import type { MessagePort } from "node:worker_threads";
import type { EstimateDocument } from "../domain/estimate-document.ts";
import type { EstimateResult } from "../domain/estimate-result.ts";
import type { SimulationOptions } from "../domain/simulation-options.ts";
import { DomainError } from "../numeric/domain-error.ts";
import { simulate } from "../simulation/simulate.ts";
import { runWithProgress } from "./run-with-progress.ts";

/** What a worker thread is asked. */
export interface SimulationTask {
  readonly document: EstimateDocument;
  readonly options: SimulationOptions;
  /** Where it tells how far it is. */
  readonly advances?: MessagePort;
}

/** What it answers. A thrown error would lose its code on the way between threads. */
export type SimulationAnswer =
  /** `ms`: what it took, waiting for the thread not included. */
  | { readonly result: EstimateResult; readonly ms: number }
  | { readonly broken: { readonly code: string; readonly message: string } };

/** Runs in a worker thread of the simulation pool. */
export default function answer({ document, options, advances }: SimulationTask): SimulationAnswer {
  const begunMs = performance.now();
  try {
    const result = advances
      ? runWithProgress(document, options, (advance) => advances.postMessage(advance))
      : simulate(document, options);
    return { result, ms: performance.now() - begunMs };
  } catch (error) {
    if (!(error instanceof DomainError)) throw error;
    return { broken: { code: error.code, message: error.message } };
  } finally {
    advances?.close();
  }
}
