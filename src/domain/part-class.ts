import { z } from "zod";
import partClassData from "../../seed/part-classes.json" with { type: "json" };

/** The classes of part the trade speaks of, with material, finish, sensible methods and safety flag (dated data). */
export const partClasses = partClassData.classes;

/** One kebab-case id of {@link partClasses}. */
export const partClassSchema = z
  .enum(
    partClasses.map((partClass) => partClass.id),
    "class is one of the part classes of seed/part-classes.json",
  )
  .meta({ id: "PartClass" });
/** A class of part, by its id. */
export type PartClass = z.infer<typeof partClassSchema>;
