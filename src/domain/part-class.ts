import { z } from "zod";
import partClassData from "../../seed/part-classes.json" with { type: "json" };

/** The classes of part the trade speaks of, with material, finish, sensible methods and safety flag (dated data). */
export const partClasses = partClassData.classes;

const ids = partClasses.map(({ id }) => id);

/** One kebab-case id of {@link partClasses}. */
export const partClassSchema = z
  .enum(ids, `must be one of the ${ids.length} part classes, such as ${ids.slice(0, 3).join(", ")}`)
  .meta({ id: "PartClass" });
/** A class of part, by its id. */
export type PartClass = z.infer<typeof partClassSchema>;
