import { z } from "zod";
import { methodSchema, tradeSchema } from "../../src/domain/vocabulary.ts";

const vehicleKind = z.enum(["motorcycle", "scooter", "car", "van", "other"]);
const unit = z.enum(["each", "pair", "set", "lot", "machine", "cylinder", "hour", "parcel"]);
const kebab = z.string().regex(/^[a-z0-9-]{1,64}$/);

const spread = z.union([
  z.number().min(0),
  z
    .strictObject({ p10: z.number().min(0), p50: z.number(), p90: z.number() })
    .refine(({ p10, p50, p90 }) => p10 < p50 && p50 < p90, "p10 < p50 < p90"),
  z
    .strictObject({ p10: z.number().min(0), p90: z.number() })
    .refine(({ p10, p90 }) => p10 < p90, "p10 < p90"),
]);

/** The quantities an entry can state; each states exactly one. */
const quantities = ["cost", "hours", "leadWeeks", "months", "share", "logSpread", "probability"] as const;

const entry = z
  .strictObject({
    id: kebab,
    vehicleKinds: z.array(vehicleKind).min(1),
    partClasses: z.array(kebab),
    method: methodSchema.optional(),
    work: kebab.optional(),
    variant: z.string().min(1).optional(),
    operation: z.string().min(1),
    trade: tradeSchema,
    unit,
    cost: spread.optional(),
    hours: spread.optional(),
    leadWeeks: spread.optional(),
    months: spread.optional(),
    share: spread.optional(),
    logSpread: spread.optional(),
    probability: z.number().min(0).max(1).optional(),
    shareOf: z.string().min(1).optional(),
    basis: z.literal("common practice, from memory"),
    money: z.strictObject({ currency: z.literal("USD"), month: z.literal("2025-06") }).optional(),
    note: z.string().min(1).optional(),
  })
  .refine((e) => (e.method === undefined) !== (e.work === undefined), "a method or a work")
  .refine((e) => quantities.filter((name) => e[name] !== undefined).length === 1, "exactly one quantity")
  .refine((e) => (e.cost === undefined) === (e.money === undefined), "money goes with cost")
  .refine((e) => (e.share === undefined) === (e.shareOf === undefined), "shareOf goes with share");
/** One starter figure. */
type RouteBookEntry = z.infer<typeof entry>;

/** One file of the route book's starter figures. */
export const routeBookFileSchema = z.strictObject({
  about: z.string().min(1),
  asOf: z.string().regex(/^\d{4}-\d{2}$/),
  entries: z.array(entry).min(1),
});

/** The figures an entry states, in order: low, typical, high; or the two ends; or the one figure. */
export function statedFigures(e: RouteBookEntry): number[] {
  const stated = quantities.map((name) => e[name]).find((value) => value !== undefined);
  return typeof stated === "number" ? [stated] : Object.values(stated ?? {});
}
