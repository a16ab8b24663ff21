import { z } from "zod";
import { mostDrivers, mostEntries, mostOperations, mostParts } from "./limits.ts";
import { loadingsSchema } from "./loadings.ts";
import { handsSchema, operationSchema } from "./operation.ts";
import { partSchema } from "./part.ts";
import {
  amountSchema,
  dateSchema,
  idSchema,
  monthSchema,
  nameSchema,
  noteSchema,
  percentSchema,
  probabilitySchema,
} from "./scalars.ts";
import { uncertainSchema } from "./uncertain.ts";
import { tradeSchema } from "./vocabulary.ts";

/** The name and version of the document format. */
export const documentFormat = "restoration-estimate/1";

const list = <T extends z.ZodType>(schema: T, most = mostEntries) =>
  z.array(schema).max(most, `at most ${most} entries`);

const overheadSchema = z
  .strictObject({
    id: idSchema,
    name: nameSchema,
    cost: uncertainSchema.optional(),
    shareOfPrice: uncertainSchema.optional(),
    shareOfListed: uncertainSchema.optional(),
    drivers: loadingsSchema.optional(),
  })
  .meta({ id: "Overhead" });
/** Money that belongs to no part: a cost, a share of the price, or a share of everything listed. */
export type Overhead = z.infer<typeof overheadSchema>;

const supplierSchema = z
  .strictObject({
    id: idSchema,
    name: nameSchema,
    trade: tradeSchema,
    minimumCharge: amountSchema.optional(),
    batchCharge: uncertainSchema.optional(),
    freightPerBatch: uncertainSchema.optional(),
    leadWeeks: uncertainSchema.optional(),
    taxPercent: percentSchema.optional(),
    drivers: loadingsSchema.optional(),
  })
  .meta({ id: "Supplier" });
/** A shop that takes lots of work. */
export type Supplier = z.infer<typeof supplierSchema>;

const findingSchema = z
  .strictObject({
    id: idSchema,
    name: nameSchema,
    probability: probabilitySchema,
    cost: uncertainSchema.optional(),
    hours: uncertainSchema.optional(),
    by: handsSchema.optional(),
    trade: tradeSchema,
    leadWeeks: uncertainSchema.optional(),
    part: idSchema.optional(),
    onRoutes: list(idSchema).optional(),
    rulesOut: list(idSchema).optional(),
    revealedAt: z.enum(["viewing", "strip-down", "blasting", "machining"]),
    state: z.enum(["open", "present", "absent"]).optional(),
    drivers: loadingsSchema.optional(),
    inspection: z
      .strictObject({
        name: nameSchema,
        cost: amountSchema,
        minutes: z.number().min(0, "minutes is at least 0").max(1e6, "minutes is at most 1e6"),
        detects: probabilitySchema,
        falseAlarm: probabilitySchema,
      })
      .optional(),
  })
  .meta({ id: "Finding" });
/** Something that may come to light and then costs, delays or rules routes out. */
export type Finding = z.infer<typeof findingSchema>;

const valueSchema = z
  .strictObject({
    finished: uncertainSchema,
    asIs: uncertainSchema.optional(),
    inPieces: uncertainSchema.optional(),
    parted: uncertainSchema.optional(),
    boughtFinished: uncertainSchema.optional(),
    drivers: loadingsSchema.optional(),
    selling: z.strictObject({
      commission: probabilitySchema,
      fixed: uncertainSchema.optional(),
      months: uncertainSchema.optional(),
    }),
  })
  .meta({ id: "Value" });
/** What the machine fetches, finished or otherwise, and what selling takes. */
export type Value = z.infer<typeof valueSchema>;

const pathSchema = z
  .strictObject({
    id: idSchema,
    name: nameSchema,
    kind: z.enum(["restore", "sell-as-is", "part-out", "buy-finished"]),
    routeOrder: z.record(idSchema, list(idSchema)).optional(),
    leaveOut: list(idSchema).optional(),
    finished: uncertainSchema.optional(),
  })
  .meta({ id: "Path" });
/** A course of action to compare. */
export type Path = z.infer<typeof pathSchema>;

const vehicleSchema = z.strictObject({
  kind: z.enum(["motorcycle", "scooter", "car", "van", "other"]),
  make: nameSchema,
  model: nameSchema,
  year: z.int("year is a whole number").min(1870, "year is at least 1870").max(2100, "year is at most 2100"),
  note: noteSchema.optional(),
});

/** The document everything works on: the one definition of what may be written, whose unknown fields are refused. */
export const estimateDocumentSchema = z
  .strictObject({
    format: z.literal(documentFormat, `format is "${documentFormat}"`),
    title: nameSchema,
    currency: z.string().regex(/^[A-Z]{3}$/, "currency is three capital letters (ISO 4217)"),
    pricesAsOf: monthSchema,
    vehicle: vehicleSchema,
    acceptableRisk: probabilitySchema.optional(),
    acceptableNetCost: amountSchema.optional(),
    budget: z.strictObject({ amount: amountSchema, includesPurchase: z.boolean() }).optional(),
    acquisition: z.strictObject({ price: amountSchema, extras: list(overheadSchema).optional() }).optional(),
    start: dateSchema.optional(),
    neededBy: dateSchema.optional(),
    cashPerMonth: amountSchema.optional(),
    taxPercent: percentSchema.optional(),
    reclaimsTax: z.boolean().optional(),
    labour: z.strictObject({
      ownHourValue: amountSchema,
      ownHoursPerWeek: uncertainSchema,
      shopRates: z.partialRecord(tradeSchema, uncertainSchema),
    }),
    shop: z
      .strictObject({
        costRate: uncertainSchema,
        chargeRate: amountSchema,
        partsMarkUpPercent: z.number().min(0).max(1_000),
      })
      .optional(),
    drivers: list(z.strictObject({ id: idSchema, name: nameSchema }), mostDrivers),
    suppliers: list(supplierSchema),
    wholeMachine: z
      .strictObject({
        before: list(operationSchema, mostOperations).optional(),
        after: list(operationSchema, mostOperations).optional(),
      })
      .optional(),
    parts: list(partSchema, mostParts),
    findings: list(findingSchema),
    overheads: list(overheadSchema),
    carrying: z.strictObject({ perMonth: uncertainSchema }).optional(),
    value: valueSchema.optional(),
    spent: z
      .strictObject({
        cash: amountSchema,
        ownHours: amountSchema.optional(),
        firmOrders: amountSchema.optional(),
      })
      .optional(),
    paths: list(pathSchema).optional(),
  })
  .meta({ id: "EstimateDocument" });
/** One restoration, costed: see the schema for every field. */
export type EstimateDocument = z.infer<typeof estimateDocumentSchema>;

/** Chance of regret that a reader accepts when the document does not say. */
export const defaultAcceptableRisk = 0.2;
