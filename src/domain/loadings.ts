import { z } from "zod";
import { idSchema } from "./scalars.ts";

/** How far a quantity moves with each shared driver: driver id to loading in [-1, 1]; the squares sum to at most 1. */
export const loadingsSchema = z
  .record(idSchema, z.number().min(-1, "a loading is at least -1").max(1, "a loading is at most 1"))
  .meta({ id: "Loadings" });
/** Driver id to loading. */
export type Loadings = z.infer<typeof loadingsSchema>;
