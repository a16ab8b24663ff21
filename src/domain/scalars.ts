import { z } from "zod";
import { largestAmount, longestName, longestNote } from "./limits.ts";

/** A stable id: lower-case letters, digits and hyphens, unique in its list. */
export const idSchema = z
  .string()
  .regex(/^[a-z0-9-]{1,64}$/, "an id is 1 to 64 lower-case letters, digits or hyphens");

/** A name for people. */
export const nameSchema = z
  .string()
  .min(1, "a name has at least one character")
  .max(longestName, `a name has at most ${longestName} characters`)
  // A terminal obeys them.
  .regex(/^\P{Cc}*$/u, "a name holds no control characters");

/** A remark for people. */
export const noteSchema = z
  .string()
  .max(longestNote, `a note has at most ${longestNote} characters`)
  .regex(/^[\P{Cc}\t\n\r]*$/u, "a note holds no control characters but line breaks and tabs");

/** Any number the document may hold. */
export const numberSchema = z
  .number("must be a finite number")
  .min(-largestAmount, `a number is at least -${largestAmount}`)
  .max(largestAmount, `a number is at most ${largestAmount}`);

/** An amount, in currency units, that cannot be negative. */
export const amountSchema = z
  .number("an amount is a finite number")
  .min(0, "an amount is at least 0")
  .max(largestAmount, `an amount is at most ${largestAmount}`);

/** A probability or share in [0, 1]. */
export const probabilitySchema = z
  .number("a probability is a finite number")
  .min(0, "a probability is at least 0")
  .max(1, "a probability is at most 1");

/** A percentage in [0, 100]. */
export const percentSchema = z
  .number("a percentage is a finite number")
  .min(0, "a percentage is at least 0")
  .max(100, "a percentage is at most 100");

/** A calendar date, YYYY-MM-DD. */
export const dateSchema = z.iso.date("a date is YYYY-MM-DD");

/** A calendar month, YYYY-MM. */
export const monthSchema = z.string().regex(/^\d{4}-(0[1-9]|1[0-2])$/, "a month is YYYY-MM");
