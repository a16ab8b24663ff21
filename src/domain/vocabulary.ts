import { z } from "zod";

/** How worn a part is, from best to worst; the order is the order of the odds. */
export const bands = ["sound", "tired", "poor", "past-saving", "missing"] as const;
/** One of {@link bands}, as a document writes it. */
export const bandSchema = z.enum(bands).meta({ id: "Band" });
/** One condition band. */
export type Band = z.infer<typeof bandSchema>;

/** The ways a part can be brought to the finished machine. */
export const methods = [
  "reuse",
  "repair",
  "replate",
  "zinc-plate",
  "repaint",
  "powder-coat",
  "new-old-stock",
  "reproduction",
  "used",
  "fabricate",
  "leave",
] as const;
/** One of {@link methods}, as a document writes it. */
export const methodSchema = z.enum(methods).meta({ id: "Method" });
/** One way of restoring or replacing a part. */
export type Method = z.infer<typeof methodSchema>;

/** The trades that do the work; also the ids of the drivers their prices share by default. */
export const trades = [
  "plating",
  "powder",
  "blasting",
  "paint",
  "bodywork",
  "machining",
  "mechanical",
  "electrical",
  "upholstery",
  "wheels",
  "instruments",
  "parts",
  "freight",
  "general",
] as const;
/** One of {@link trades}, as a document writes it. */
export const tradeSchema = z.enum(trades).meta({ id: "Trade" });
/** One trade. */
export type Trade = z.infer<typeof tradeSchema>;

/** Methods that keep the part on the bench, and so cannot work once it is past saving or missing. */
const keepingMethods: ReadonlySet<Method> = new Set<Method>([
  "reuse",
  "repair",
  "replate",
  "zinc-plate",
  "repaint",
  "powder-coat",
]);

/**
 * The bands a route works for when the document does not say.
 *
 * @param method the route's method
 * @returns sound, tired and poor for a method that keeps the part; every band for the others
 */
export function defaultWorksFor(method: Method): readonly Band[] {
  return keepingMethods.has(method) ? ["sound", "tired", "poor"] : bands;
}
