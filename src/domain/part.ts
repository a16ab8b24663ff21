import { z } from "zod";
import { leastFindsPerMonth, mostOperations, mostTries } from "./limits.ts";
import { loadingsSchema } from "./loadings.ts";
import { operationSchema } from "./operation.ts";
import { partClassSchema } from "./part-class.ts";
import { idSchema, nameSchema, noteSchema, probabilitySchema } from "./scalars.ts";
import { uncertainSchema } from "./uncertain.ts";
import { bandSchema, methodSchema } from "./vocabulary.ts";

const operationsSchema = z.array(operationSchema).max(mostOperations, `at most ${mostOperations} operations`);

const outcomeSchema = z.strictObject({
  probability: probabilitySchema,
  result: z.enum(["right", "rework", "useless"]),
  operations: operationsSchema.optional(),
  recovers: probabilitySchema.optional(),
});
/** What a bought part may turn out to be. */
export type Outcome = z.infer<typeof outcomeSchema>;

const purchaseSchema = z.strictObject({
  findsPerMonth: z
    .number()
    .min(leastFindsPerMonth, `findsPerMonth is above 0: at least ${leastFindsPerMonth}`)
    .max(1_000, "findsPerMonth is at most 1000")
    .optional(),
  patienceMonths: z
    .number()
    .min(0, "patienceMonths is at least 0")
    .max(1_200, "patienceMonths is at most 1200")
    .optional(),
  tries: z
    .int("tries is a whole number")
    .min(1, "tries is at least 1")
    .max(mostTries, `tries is at most ${mostTries}`)
    .optional(),
  judgedAfter: idSchema.optional(),
  outcomes: z.array(outcomeSchema).min(1, "at least one outcome").max(20, "at most 20 outcomes").optional(),
});
/** How a part is hunted and bought, and what it may turn out to be. */
export type Purchase = z.infer<typeof purchaseSchema>;

/** One way to bring the part to the finished machine: a chain of operations that may fail. */
export const routeSchema = z
  .strictObject({
    id: idSchema,
    method: methodSchema,
    worksFor: z.array(bandSchema).max(5, "at most the five bands").optional(),
    state: z.enum(["open", "failed", "fitted"]).optional(),
    operations: operationsSchema,
    failure: z
      .strictObject({ probability: probabilitySchema, after: idSchema, drivers: loadingsSchema.optional() })
      .optional(),
    purchase: purchaseSchema.optional(),
    valueEffect: uncertainSchema.optional(),
  })
  .meta({ id: "Route" });
/** One way to bring the part to the finished machine. */
export type Route = z.infer<typeof routeSchema>;

const conditionSchema = z.union(
  [
    z.strictObject({ band: bandSchema }),
    z.strictObject({
      odds: z.partialRecord(bandSchema, probabilitySchema),
      drivers: loadingsSchema.optional(),
    }),
  ],
  "a condition has a band, or odds over the bands",
);

/** One part of the machine with its condition and its routes in the order they would be tried. */
export const partSchema = z
  .strictObject({
    id: idSchema,
    name: nameSchema,
    class: partClassSchema,
    quantity: z.number().gt(0, "quantity is above 0").max(1e6, "quantity is at most 1e6").optional(),
    condition: conditionSchema,
    routes: z.array(routeSchema).max(50, "at most 50 routes"),
    ifUnresolved: z.strictObject({ valueEffect: uncertainSchema }).optional(),
    note: noteSchema.optional(),
  })
  .meta({ id: "Part" });
/** One part of the machine. */
export type Part = z.infer<typeof partSchema>;
