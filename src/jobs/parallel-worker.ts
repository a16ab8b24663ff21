import { parentPort } from "node:worker_threads";
import type { EstimateDocument } from "../domain/estimate-document.ts";
import type { EstimateResult } from "../domain/estimate-result.ts";
import type { CompleteSimulationOptions, SimulationOptions } from "../domain/simulation-options.ts";
import { DomainError } from "../numeric/domain-error.ts";
import type { OutcomeColumns } from "../simulation/outcome-columns.ts";
import { simulate } from "../simulation/simulate.ts";
import type { Claims } from "./claims.ts";
import {
  type DrawingTask,
  type PlacedPart,
  drawUnclaimed,
  measureUnclaimed,
  prepareTask,
  putTogether,
  sharedRoom,
} from "./drawing-task.ts";

/**
 * What a thread is asked: a whole simulation; or its share in one: to prepare, one of all to make room, to draw, to measure,
 * one of all to put the result together.
 */
export type DrawingRequest =
  | { ask: "simulate"; document: EstimateDocument; options: SimulationOptions }
  | { ask: "prepare"; document: EstimateDocument; options: CompleteSimulationOptions; draws: number }
  | { ask: "make room" }
  | { ask: "draw" | "measure"; outcomes: OutcomeColumns; claims: Claims; claimant: number }
  | { ask: "put together"; parts: readonly PlacedPart[] };

/** What it answers. A thrown error would lose its code on the way between threads. */
export interface DrawingAnswer {
  readonly outcomes?: OutcomeColumns;
  readonly parts?: readonly PlacedPart[];
  readonly result?: EstimateResult;
  readonly broken?: { readonly code: string; readonly message: string };
}

let task: DrawingTask | undefined;

function answer(request: DrawingRequest): DrawingAnswer {
  switch (request.ask) {
    case "simulate":
      return { result: simulate(request.document, request.options) };
    case "prepare":
      task = prepareTask(request.document, request.options, request.draws);
      return {};
    case "make room":
      return { outcomes: sharedRoom(task!) };
    case "draw":
      drawUnclaimed(task!, request.outcomes, request.claims, request.claimant);
      return {};
    case "measure":
      return { parts: measureUnclaimed(task!, request.outcomes, request.claims, request.claimant) };
    case "put together":
      return { result: putTogether(request.parts) };
  }
}

parentPort!.on("message", (request: DrawingRequest) => {
  try {
    parentPort!.postMessage(answer(request));
  } catch (error) {
    if (!(error instanceof DomainError)) throw error;
    parentPort!.postMessage({ broken: { code: error.code, message: error.message } });
  }
});
