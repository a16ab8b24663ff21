import { z } from "zod";
import { measuredSchema } from "./measured.ts";

/** What a firm price for one operation, or for a finding's work, would do for the spread of the restoration cash. */
const firmPriceSchema = z
  .strictObject({
    path: z
      .string()
      .describe("part/route/operation, part/route/outcome-2/operation, whole/operation or findings/id"),
    pointer: z.string().describe("JSON Pointer (RFC 6901) to its place in the document"),
    words: z.string(),
    price: measuredSchema.describe("what it would be fixed at: its mean where it is paid, tax included"),
    narrowing: measuredSchema.describe("by how much P80 - P50 would shrink"),
    widthAfter: measuredSchema.describe("P80 - P50 with that price"),
  })
  .meta({ id: "FirmPrice" });
/** What one firm price would do. */
export type FirmPrice = z.infer<typeof firmPriceSchema>;

/** Which prices to make firm first: those whose firm price would narrow P80 - P50 of the restoration cash the most. */
export const firmUpFirstSchema = z
  .strictObject({
    method: z.string(),
    draws: z.number().describe("draws it was computed on: all, or an even choice of them"),
    width: measuredSchema.describe("P80 - P50 of the restoration cash on those draws"),
    operations: z.array(firmPriceSchema).describe("most narrowing first"),
  })
  .meta({ id: "FirmUpFirst" });
/** Which prices to make firm first. */
export type FirmUpFirst = z.infer<typeof firmUpFirstSchema>;
