import { z } from "zod";
import { checkShape } from "./check-shape.ts";
import { type EstimateResult, samplingSchema } from "./estimate-result.ts";
import type { Fault } from "./fault.ts";
import { fewestAdaptiveDraws, fewestDraws, largestSeed, mostDraws } from "./limits.ts";

const drawsRule = `draws is a whole number, or "auto"`;
const shareSchema = z
  .number()
  .min(1e-5, "a tolerance is at least 0.00001")
  .max(1, "a tolerance is at most 1");

/** How exact the figures of an adaptive simulation must be: half-widths of their 95 % intervals. */
const toleranceSchema = z
  .strictObject({
    shareOfMedian: shareSchema
      .optional()
      .meta({ description: "Of amounts, as a share of the median restoration cash; 0.005 unless given." }),
    probability: shareSchema
      .optional()
      .meta({ description: "Of the chances of overrun, loss and regret; 0.005 unless given." }),
  })
  .meta({ id: "Tolerance" });

/** How a simulation is to be run. */
export const simulationOptionsSchema = z
  .strictObject({
    draws: z
      .union(
        [
          z.literal("auto", drawsRule),
          z
            .int(drawsRule)
            .min(fewestDraws, `draws is at least ${fewestDraws}`)
            .max(mostDraws, `draws is at most ${mostDraws}`),
        ],
        drawsRule,
      )
      .optional()
      .meta({ description: `How many draws, or "auto": as many as the tolerance needs.` }),
    seed: z.int(`seed is a whole number, at most ${largestSeed}`).min(0, "seed is at least 0").optional(),
    sampling: samplingSchema.optional(),
    tolerance: toleranceSchema.optional(),
    mostDraws: z
      .int("mostDraws is a whole number")
      .min(fewestAdaptiveDraws, `mostDraws is at least ${fewestAdaptiveDraws}`)
      .max(mostDraws, `mostDraws is at most ${mostDraws}`)
      .optional()
      .meta({ description: `With draws "auto": where it stops at the latest; 100,000 unless given.` }),
  })
  .refine(({ draws, tolerance }) => draws === "auto" || tolerance === undefined, {
    path: ["tolerance"],
    error: `tolerance goes only with draws "auto"`,
  })
  .refine(({ draws, mostDraws: most }) => draws === "auto" || most === undefined, {
    path: ["mostDraws"],
    error: `mostDraws goes only with draws "auto"`,
  })
  .meta({ id: "SimulationOptions" });
/** How a simulation is to be run: draws, seed of the random streams, placing of the draws, and when "auto" may stop. */
export type SimulationOptions = z.infer<typeof simulationOptionsSchema>;

/** When an adaptive simulation stops. */
export interface Adaptive {
  readonly tolerance: { readonly shareOfMedian: number; readonly probability: number };
  readonly mostDraws: number;
}

/** A simulation's options with nothing left open. */
export interface CompleteSimulationOptions {
  readonly draws: number | "auto";
  readonly seed: number;
  readonly sampling: NonNullable<SimulationOptions["sampling"]>;
  /** Present when `draws` is "auto". */
  readonly adaptive?: Adaptive;
}

/** What holds where nothing is asked for. */
export const defaultSimulationOptions: CompleteSimulationOptions = {
  draws: 10_000,
  seed: 1,
  sampling: "stratified",
};
const defaultTolerance = { shareOfMedian: 0.005, probability: 0.005 };
const defaultMostDraws = 100_000;

/**
 * Completes options.
 *
 * @param options valid options, any of them absent
 */
export function withDefaults(options: SimulationOptions): CompleteSimulationOptions {
  const { draws = defaultSimulationOptions.draws, tolerance, mostDraws: most } = options;
  const { shareOfMedian, probability } = defaultTolerance;
  return {
    draws,
    seed: options.seed ?? defaultSimulationOptions.seed,
    sampling: options.sampling ?? defaultSimulationOptions.sampling,
    ...(draws === "auto" && {
      adaptive: {
        tolerance: {
          shareOfMedian: tolerance?.shareOfMedian ?? shareOfMedian,
          probability: tolerance?.probability ?? probability,
        },
        mostDraws: most ?? defaultMostDraws,
      },
    }),
  };
}

/**
 * The options that give a result again.
 *
 * @param engine what the result says of how it was computed
 */
export function optionsOf({ draws, seed, sampling, adaptive }: EstimateResult["engine"]): SimulationOptions {
  return adaptive === undefined ? { draws, seed, sampling } : { draws: "auto", seed, sampling, ...adaptive };
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
