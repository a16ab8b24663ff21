import { z } from "zod";
import { criticalShareSchema } from "./critical-share.ts";
import { firmUpFirstSchema } from "./firm-up-first.ts";
import { measuredSchema } from "./measured.ts";
import { sensitivitySchema } from "./sensitivity.ts";

export type { Measured } from "./measured.ts";

const range = {
  mean: measuredSchema,
  p10: measuredSchema,
  p50: measuredSchema,
  p80: measuredSchema,
  p90: measuredSchema,
};
/** Mean and main percentiles (Hyndman & Fan type 7). */
export const rangeSchema = z.strictObject(range).meta({ id: "Range" });
/** Mean and main percentiles. */
export type Range = z.infer<typeof rangeSchema>;

/** A range with its standard deviation and the outer percentiles. */
export const summarySchema = z
  .strictObject({
    ...range,
    sd: measuredSchema,
    p5: measuredSchema,
    p25: measuredSchema,
    p75: measuredSchema,
    p95: measuredSchema,
  })
  .meta({ id: "Summary" });
/** A range with its standard deviation and the outer percentiles. */
export type Summary = z.infer<typeof summarySchema>;

/** How the draws of one quantity are placed: Latin hypercube strata, or each on its own. */
export const samplingSchema = z.enum(["stratified", "independent"]).meta({ id: "Sampling" });
/** How draws are placed. */
export type Sampling = z.infer<typeof samplingSchema>;

const lineSchema = z
  .strictObject({
    id: z.string(),
    kind: z.enum(["part", "supplier", "finding", "overhead", "whole"]),
    name: z.string(),
    cash: rangeSchema,
    varianceShare: measuredSchema,
  })
  .meta({ id: "Line" });
/** One line of the restoration cash. */
export type Line = z.infer<typeof lineSchema>;

const valueResultSchema = z.strictObject({
  finished: summarySchema,
  proceeds: summarySchema,
  gap: summarySchema,
  gapWithOwnHours: summarySchema,
  lossProbability: measuredSchema,
  regretProbability: measuredSchema,
  recovery: z.strictObject({ p10: measuredSchema, p50: measuredSchema, p90: measuredSchema }).optional(),
});

/** What a simulation answers; money in the document's currency, times in weeks, labour in hours. */
export const estimateResultSchema = z
  .strictObject({
    engine: z.strictObject({
      version: z.string(),
      seed: z.number(),
      draws: z.number(),
      sampling: samplingSchema,
      replicates: z.int().optional().meta({
        description:
          "Independent replicates (or batches) that the standard errors come from: Student's t with one degree of freedom less. Absent, as are sensitivity, firmUpFirst and critical, from results of engine 1.0.0, which had 16.",
      }),
      adaptive: z
        .strictObject({
          tolerance: z.strictObject({ shareOfMedian: z.number(), probability: z.number() }),
          mostDraws: z.int(),
        })
        .optional()
        .meta({ description: `Present when draws were "auto".` }),
      stopped: z.string(),
      detail: z.enum(["full", "totals"]),
    }),
    documentDigest: z.string(),
    resultDigest: z.string(),
    sumOfTypicals: z.number(),
    restoration: z.strictObject({ cash: summarySchema, withOwnHours: summarySchema, toGo: summarySchema }),
    carrying: summarySchema,
    allIn: summarySchema,
    budget: z
      .strictObject({
        amount: z.number(),
        overrunProbability: measuredSchema,
        expectedOverrun: measuredSchema,
        reserveForP80: measuredSchema,
      })
      .optional(),
    value: valueResultSchema.optional(),
    ceiling: z
      .array(z.strictObject({ risk: z.number(), resale: measuredSchema, mine: measuredSchema }))
      .optional(),
    weeks: summarySchema,
    ownHours: summarySchema,
    shopHours: summarySchema,
    completeProbability: measuredSchema,
    lines: z.array(lineSchema),
    parts: z.array(
      z.strictObject({
        id: z.string(),
        unresolvedProbability: measuredSchema,
        routes: z.array(z.strictObject({ id: z.string(), share: measuredSchema })),
      }),
    ),
    suppliers: z.array(z.strictObject({ id: z.string(), cash: rangeSchema, departures: measuredSchema })),
    sensitivity: sensitivitySchema.optional(),
    firmUpFirst: firmUpFirstSchema.optional(),
    critical: z.array(criticalShareSchema).optional(),
    curve: z.array(
      z.strictObject({
        probability: z.number(),
        restoration: z.number(),
        value: z.number().optional(),
        gap: z.number().optional(),
      }),
    ),
  })
  .meta({ id: "EstimateResult" });
/** What a simulation answers. */
export type EstimateResult = z.infer<typeof estimateResultSchema>;
