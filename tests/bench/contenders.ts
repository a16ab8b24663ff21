import type { EstimateDocument } from "../../src/domain/estimate-document.ts";
import { resultOf } from "../../src/simulation/result.ts";
import { simulate, simulation } from "../../src/simulation/simulate.ts";
import { numpyMs } from "./numpy-peer.ts";
import { obviousEstimate } from "./obvious/obvious-estimate.ts";
import { type Timed, msOf } from "./take-turns.ts";

/** One of those compared. */
export interface Contender extends Timed {
  readonly name: string;
}

/** This engine, warm, on one thread, every field of the result included; weeks are 0 without the schedule. */
export function engine(document: EstimateDocument, draws: number, schedule: boolean): Contender {
  const run = schedule
    ? () => simulate(document, { draws })
    : () => resultOf(simulation(document, { draws }, { schedule: false }));
  return {
    name: `this engine, ${schedule ? "with" : "without"} the schedule`,
    run: () => msOf(run),
    warmUps: 2,
  };
}

/** The NumPy script on the same document, without the schedule. */
export function numpy(file: string, draws: number, quantiles: "tables" | "exact"): Contender {
  return {
    name: quantiles === "tables" ? "NumPy, interpolation tables" : "NumPy and SciPy, exact quantiles",
    run: () => numpyMs(file, draws, quantiles),
  };
}

/** Objects and a library's inverse for every sample, without the schedule. */
export function obvious(document: EstimateDocument, draws: number): Contender {
  return {
    name: "obvious TypeScript",
    run: () => msOf(() => obviousEstimate(document, draws, 1)),
  };
}
