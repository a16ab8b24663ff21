import type { EstimateDocument } from "../domain/estimate-document.ts";
import type { EstimateResult } from "../domain/estimate-result.ts";
import type { SimulationOptions } from "../domain/simulation-options.ts";
import { DomainError } from "../numeric/domain-error.ts";
import { simulate } from "../simulation/simulate.ts";

/** What a worker thread is asked. */
export interface SimulationTask {
  readonly document: EstimateDocument;
  readonly options: SimulationOptions;
}

/** What it answers. A thrown error would lose its code on the way between threads. */
export type SimulationAnswer =
  | { readonly result: EstimateResult }
  | { readonly broken: { readonly code: string; readonly message: string } };

/** Runs in a worker thread of the simulation pool. */
export default function answer({ document, options }: SimulationTask): SimulationAnswer {
  try {
    return { result: simulate(document, options) };
  } catch (error) {
    if (!(error instanceof DomainError)) throw error;
    return { broken: { code: error.code, message: error.message } };
  }
}
