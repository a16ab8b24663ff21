import { z } from "zod";
import { measuredSchema } from "./measured.ts";

const termKinds = [
  "spent",
  "part",
  "supplier",
  "finding",
  "overhead",
  "whole",
  "purchase",
  "carrying",
  "proceeds",
] as const;

const term = {
  kind: z.enum(termKinds),
  id: z.string(),
  name: z.string(),
  change: z
    .enum(["added", "removed", "changed"])
    .describe("whether only the second document has it, only the first, or both"),
  pointers: z
    .strictObject({ first: z.string().optional(), second: z.string().optional() })
    .describe("JSON Pointers (RFC 6901) to its place in each document that has it"),
  mean: measuredSchema,
  p50: measuredSchema,
};

const difference = z
  .strictObject({ first: z.number(), second: z.number(), difference: measuredSchema })
  .meta({ id: "BridgeDifference" });

const cashTermSchema = z.strictObject({ ...term, p80: measuredSchema }).meta({ id: "BridgeCashTerm" });
const gapTermSchema = z.strictObject({ ...term, p20: measuredSchema }).meta({ id: "BridgeGapTerm" });

/** What makes the difference between two estimates: terms that add up to it, those that move it most first. */
export const bridgeSchema = z
  .strictObject({
    rule: z.string(),
    draws: z.number(),
    seed: z.number(),
    cash: z
      .strictObject({ mean: difference, p50: difference, p80: difference, terms: z.array(cashTermSchema) })
      .describe("restoration cash, what is spent included"),
    gap: z
      .strictObject({ mean: difference, p50: difference, p20: difference, terms: z.array(gapTermSchema) })
      .optional()
      .describe("proceeds less all that is paid; present when both documents give a value"),
  })
  .meta({ id: "Bridge" });
/** What makes the difference between two estimates. */
export type Bridge = z.infer<typeof bridgeSchema>;
/** A difference as first, second and second less first. */
export type BridgeDifference = z.infer<typeof difference>;
/** What one line makes of the difference in the restoration cash. */
export type BridgeCashTerm = z.infer<typeof cashTermSchema>;
/** Who a term is. */
export type BridgeTermIdentity = Pick<BridgeCashTerm, "kind" | "id" | "name" | "change" | "pointers">;
