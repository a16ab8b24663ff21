import { z } from "zod";
import { measuredSchema } from "./measured.ts";

/** Amounts that add up to an answer: the lines of the restoration cash, and what else the gap is made of. */
const amountKinds = [
  "part",
  "supplier",
  "finding",
  "overhead",
  "whole",
  "purchase",
  "carrying",
  "value",
] as const;
/** What lies behind them: shared causes, a part's condition, whether a finding is there, whether a route fails. */
const causeKinds = ["weeks", "driver", "condition", "presence", "failure"] as const;

/** One thing that moves an answer, and by how much. */
export const influenceSchema = z
  .strictObject({
    kind: z
      .enum([...amountKinds, ...causeKinds])
      .describe("what it is; `finding` is what one costs, `presence` whether it is there"),
    id: z.string().describe("its id; part/route for the failure of a route"),
    pointer: z.string().describe("JSON Pointer (RFC 6901) to its place in the document"),
    words: z.string(),
    varianceShare: measuredSchema
      .optional()
      .describe("covariance with the answer over its variance; those of all amounts add up to 1"),
    correlationRatio: measuredSchema
      .optional()
      .describe(
        "share of the answer's variance between the values it takes (40 classes of equal numbers where they are continuous), the bias of chance taken off, at least 0; these overlap and are never added up",
      ),
    rankCorrelation: measuredSchema.optional().describe("Spearman's, ties at their mid-rank"),
    lowest: measuredSchema.describe(
      "mean of the answer in the tenth of the draws where it is lowest: cheapest, earliest, soundest, absent; draws that tie at the border share what is left of the tenth",
    ),
    highest: measuredSchema.describe("mean of the answer in the tenth where it is highest"),
    absent: measuredSchema.optional().describe("of an event: mean of the answer where it does not happen"),
    present: measuredSchema.optional().describe("of an event: mean of the answer where it happens"),
  })
  .meta({ id: "Influence" });
/** One thing that moves an answer. */
export type Influence = z.infer<typeof influenceSchema>;

/** What moves the restoration cash, the gap and the weeks: strongest first. */
export const sensitivitySchema = z
  .strictObject({
    cash: z.array(influenceSchema),
    gap: z.array(influenceSchema).optional().describe("absent without a value"),
    weeks: z.array(influenceSchema),
  })
  .meta({ id: "Sensitivity" });
/** What moves each answer. */
export type Sensitivity = z.infer<typeof sensitivitySchema>;
