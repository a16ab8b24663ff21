import { setEnvironmentData } from "node:worker_threads";
import { type ParallelSimulator, createParallelSimulator } from "../../src/jobs/parallel-simulation.ts";

const worker = new URL("./fixtures/dying-parallel-entry.mjs", import.meta.url);

/**
 * A parallel simulator some of whose threads die half way through its first simulation.
 *
 * @param deaths how many die, one after the other
 */
export function withDyingThreads(threads: number, deaths: number): ParallelSimulator {
  setEnvironmentData("dying", { deaths, noted: new Int32Array(new SharedArrayBuffer(4)) });
  return createParallelSimulator({ threads, worker });
}
