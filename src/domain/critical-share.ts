import { z } from "zod";
import { measuredSchema } from "./measured.ts";

/** How often one operation, or a finding's work, lies on the critical path. */
export const criticalShareSchema = z
  .strictObject({
    path: z
      .string()
      .describe("part/route/operation, part/route/outcome-2/operation, whole/operation or findings/id"),
    pointer: z.string().describe("JSON Pointer (RFC 6901) to its place in the document"),
    words: z.string(),
    share: measuredSchema.describe("share of draws"),
  })
  .meta({ id: "CriticalShare" });
/** How often one operation lies on the critical path. */
export type CriticalShare = z.infer<typeof criticalShareSchema>;
