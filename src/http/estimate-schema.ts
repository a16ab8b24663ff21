import { z } from "zod";
import { estimateDocumentSchema } from "../domain/estimate-document.ts";
import { estimateResultSchema, samplingSchema } from "../domain/estimate-result.ts";
import type { Estimate } from "../store/estimate-store.ts";
import { replayabilityOf } from "./replayability.ts";

/** What came into the engine after a version of it. */
export const engineChangesSchema = z
  .array(
    z
      .strictObject({ version: z.string(), date: z.iso.date(), changed: z.string() })
      .meta({ id: "EngineChange", description: "What a version of the engine computes differently." }),
  )
  .meta({ description: "Every version of the engine since, newest first." });

const estimateFields = {
  id: z.uuid(),
  projectId: z.uuid(),
  revision: z.int().meta({ description: "The revision of the document it was computed from." }),
  createdAt: z.iso.datetime(),
  documentDigest: z.string(),
  resultDigest: z.string(),
  engineVersion: z.string(),
  replayable: z
    .boolean()
    .meta({ description: "Whether today's engine computes it again to the last digit." }),
  seed: z.int(),
  draws: z.int(),
  sampling: samplingSchema,
};

/** An estimate in a list. */
export const estimateSchema = z
  .strictObject(estimateFields)
  .meta({ id: "Estimate", description: "How a stored estimate was computed." });

/** An estimate with what it was computed from and what came out. */
export const storedEstimateSchema = z
  .strictObject({
    ...estimateFields,
    notReplayable: z
      .strictObject({ explanation: z.string(), engineChanges: engineChangesSchema })
      .optional()
      .meta({ description: "Why it cannot be replayed, where it cannot." }),
    document: estimateDocumentSchema,
    result: estimateResultSchema,
  })
  .meta({
    id: "StoredEstimate",
    description: "A stored estimate: document, seed, engine and result, never changed.",
  });

/** What a list shows of an estimate. */
export function shownEstimate<T extends Estimate>(estimate: T) {
  return { ...estimate, replayable: replayabilityOf(estimate.engineVersion).replayable };
}

/** What the estimate's own address shows. */
export function shownStoredEstimate<T extends Estimate>(estimate: T) {
  return { ...estimate, ...replayabilityOf(estimate.engineVersion) };
}

/** Where an estimate is. */
export function estimateAddress(projectId: string, id: string): string {
  return `/v1/projects/${projectId}/estimates/${id}`;
}
