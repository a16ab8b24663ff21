import { z } from "zod";
import { mostOutcomes } from "./limits.ts";
import { numberSchema, probabilitySchema } from "./scalars.ts";

const positive = (what: string) => z.number().gt(0, `${what} is above 0`).max(1e9, `${what} is at most 1e9`);

const spread = z
  .number()
  .min(0, "a standard deviation is at least 0")
  .max(1e9, "a standard deviation is at most 1e9");

const threePoint = {
  low: numberSchema,
  mode: numberSchema,
  high: numberSchema,
  covers: z.number().gt(0, "covers is above 0").max(1, "covers is at most 1").optional(),
  weight: z.number().gt(0, "weight is above 0").max(100, "weight is at most 100").optional(),
};

/** A lognormal is given by its percentiles or by its moments. */
const lognormalSchema = z.union(
  [
    z.strictObject({ kind: z.literal("lognormal"), p10: positive("p10"), p90: positive("p90") }),
    z.strictObject({ kind: z.literal("lognormal"), mean: positive("mean"), sd: spread }),
  ],
  "a lognormal has p10 and p90, or mean and sd",
);

const outcomes = z
  .array(z.strictObject({ value: numberSchema, probability: probabilitySchema }))
  .min(1, "at least one outcome")
  .max(mostOutcomes, `at most ${mostOutcomes} outcomes`);

const byKindSchema = z.discriminatedUnion("kind", [
  z.strictObject({ kind: z.literal("uniform"), low: numberSchema, high: numberSchema }),
  z.strictObject({ kind: z.literal("triangular"), ...threePoint }),
  z.strictObject({ kind: z.literal("pert"), ...threePoint }),
  z.strictObject({
    kind: z.literal("percentiles"),
    p10: numberSchema,
    p50: numberSchema,
    p90: numberSchema,
    floor: numberSchema.optional(),
  }),
  z.strictObject({
    kind: z.literal("normal"),
    mean: numberSchema,
    sd: spread,
    atLeast: numberSchema.optional(),
  }),
  z.strictObject({
    kind: z.literal("log-student"),
    location: z
      .number()
      .min(-50, "location, a natural logarithm, is at least -50")
      .max(25, "location, a natural logarithm, is at most 25"),
    scale: z.number().min(0, "scale is at least 0").max(10, "scale is at most 10"),
    freedom: z.number().min(3, "freedom is at least 3").max(1e6, "freedom is at most 1e6"),
  }),
  z.strictObject({ kind: z.literal("exponential"), mean: positive("mean") }),
  z.strictObject({
    kind: z.literal("sample"),
    values: z
      .array(numberSchema)
      .min(1, "at least one value")
      .max(mostOutcomes, `at most ${mostOutcomes} values`),
    weights: z.array(positive("a weight")).optional(),
  }),
  z.strictObject({ kind: z.literal("discrete"), outcomes }),
]);

/** A quantity that is not known for certain; a bare number is a constant. The one definition of what may be written. */
export const uncertainSchema = z
  .union([numberSchema, byKindSchema, lognormalSchema], "must be a number or a distribution")
  .meta({ id: "Uncertain" });
/** A constant or a distribution, in the unit of the field that holds it. */
export type Uncertain = z.infer<typeof uncertainSchema>;
/** An uncertain quantity that is not a constant. */
export type Distribution = Exclude<Uncertain, number>;
