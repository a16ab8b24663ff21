import { z } from "zod";
import { checkShape } from "./check-shape.ts";
import { samplingSchema } from "./estimate-result.ts";
import type { Fault } from "./fault.ts";
import { fewestDraws, largestSeed, mostDraws } from "./limits.ts";

/** How a simulation is to be run. */
export const simulationOptionsSchema = z
  .strictObject({
    draws: z
      .int("draws is a whole number")
      .min(fewestDraws, `draws is at least ${fewestDraws}`)
      .max(mostDraws, `draws is at most ${mostDraws}`)
      .optional(),
    seed: z.int(`seed is a whole number, at most ${largestSeed}`).min(0, "seed is at least 0").optional(),
    sampling: samplingSchema.optional(),
  })
  .meta({ id: "SimulationOptions" });
/** How a simulation is to be run: draws, seed of the random streams, placing of the draws. */
export type SimulationOptions = z.infer<typeof simulationOptionsSchema>;

/** A simulation's options with nothing left open. */
export type CompleteSimulationOptions = {
  [K in keyof SimulationOptions]-?: NonNullable<SimulationOptions[K]>;
};

/** What holds where nothing is asked for. */
export const defaultSimulationOptions: CompleteSimulationOptions = {
  draws: 10_000,
  seed: 1,
  sampling: "stratified",
};

/**
 * Completes options.
 *
 * @param options valid options, any of them absent
 */
export function withDefaults({ draws, seed, sampling }: SimulationOptions): CompleteSimulationOptions {
  return {
    draws: draws ?? defaultSimulationOptions.draws,
    seed: seed ?? defaultSimulationOptions.seed,
    sampling: sampling ?? defaultSimulationOptions.sampling,
  };
}

/**
 * Checks options that came from outside.
 *
 * @param input anything
 * @returns the options as given, or every fault
 */
export function parseSimulationOptions(input: unknown): { options: SimulationOptions } | { faults: Fault[] } {
  const checked = checkShape(simulationOptionsSchema, input);
  return "faults" in checked ? checked : { options: checked.value };
}
