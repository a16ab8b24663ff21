import type { Sampling } from "./estimate-result.ts";
export interface SimulationOptions {
  draws?: number;
  seed?: number;
  sampling?: Sampling;
}
export function withDefaults(options: SimulationOptions): Required<SimulationOptions> {
  return {
    draws: options.draws ?? 10_000,
    seed: options.seed ?? 1,
    sampling: options.sampling ?? "stratified",
  };
}
