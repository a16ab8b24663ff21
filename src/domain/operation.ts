import { z } from "zod";
import { loadingsSchema } from "./loadings.ts";
import { idSchema, nameSchema } from "./scalars.ts";
import { uncertainSchema } from "./uncertain.ts";
import { tradeSchema } from "./vocabulary.ts";

/** Whose hands do the hours. */
export const handsSchema = z.enum(["owner", "shop"]);

/** One step of work or one purchase, with what it costs and takes. */
export const operationSchema = z
  .strictObject({
    id: idSchema,
    name: nameSchema,
    trade: tradeSchema,
    state: z.enum(["to-do", "done"]).optional(),
    cost: uncertainSchema.optional(),
    per: z.enum(["each", "job"]).optional(),
    hours: uncertainSchema.optional(),
    by: handsSchema.optional(),
    leadWeeks: uncertainSchema.optional(),
    supplier: idSchema.optional(),
    lot: idSchema.optional(),
    after: z.array(z.string().min(1).max(200)).max(50, "at most 50 predecessors").optional(),
    drivers: loadingsSchema.optional(),
    basis: z.enum(["starter", "own-record", "quoted", "firm"]).optional(),
  })
  .meta({ id: "Operation" });
/** One step of work or one purchase. */
export type Operation = z.infer<typeof operationSchema>;
