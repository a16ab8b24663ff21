import { z } from "zod";

/** A figure with its Monte Carlo standard error, in the figure's own unit (from independent replicates, see `engine.replicates`). */
export const measuredSchema = z
  .strictObject({ value: z.number(), standardError: z.number() })
  .meta({ id: "Measured" });
/** A figure with its Monte Carlo standard error. */
export type Measured = z.infer<typeof measuredSchema>;
