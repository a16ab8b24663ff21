import type { EstimateDocument } from "../domain/estimate-document.ts";
import type { SimulationOptions } from "../domain/simulation-options.ts";
import { withDefaults } from "../domain/simulation-options.ts";

/** Foretells how long simulations take on this machine, from those it has seen. */
export interface Predictor {
  /** @returns milliseconds a thread will need, waiting for one not included; of draws "auto" the most */
  predictedMs(document: EstimateDocument, options: SimulationOptions): number;
  /**
   * @param draws made in the end
   * @param ms what a thread needed; the pool tells both of every simulation it ran
   */
  observe(document: EstimateDocument, draws: number, ms: number): void;
}

/** What any simulation takes: compiling, and the figures of the result. */
const fixedMs = 10;
/** Before anything was measured: 200 items at 10,000 draws take about a quarter of a second on one core. */
const firstMsPerItemAndDraw = 1.3e-4;
/** Rates that count; odd, so that one of them is in the middle. */
const remembered = 9;
/** Items times draws below which a time says more of the rest than of the rate. */
const leastWork = 100_000;

/**
 * Makes a predictor. Its rate is the median of the last ones seen, so that a slow one (a thread's first, a
 * busy machine) or an odd document does not decide; it begins as if it had seen three of the first rate.
 */
export function createPredictor(): Predictor {
  const rates = [firstMsPerItemAndDraw, firstMsPerItemAndDraw, firstMsPerItemAndDraw];
  return {
    predictedMs: (document, options) => {
      const { draws, adaptive } = withDefaults(options);
      const most = draws === "auto" ? adaptive!.mostDraws : draws;
      return fixedMs + most * itemCount(document) * medianOf(rates);
    },
    observe: (document, draws, ms) => {
      const work = draws * itemCount(document);
      if (work < leastWork) return;
      rates.push(Math.max(0, ms - fixedMs) / work);
      if (rates.length > remembered) rates.shift();
    },
  };
}

/** The upper one of an even number. */
function medianOf(values: readonly number[]): number {
  return values.toSorted((a, b) => a - b)[Math.floor(values.length / 2)]!;
}

/** What a draw goes through: operations (rework and whole-machine work included), findings and overheads; at least one. */
function itemCount({ wholeMachine, parts, findings, overheads }: EstimateDocument): number {
  let count = findings.length + overheads.length;
  count += (wholeMachine?.before?.length ?? 0) + (wholeMachine?.after?.length ?? 0);
  for (const { operations, purchase } of parts.flatMap(({ routes }) => routes)) {
    count += operations.length;
    for (const outcome of purchase?.outcomes ?? []) count += outcome.operations?.length ?? 0;
  }
  return Math.max(1, count);
}
