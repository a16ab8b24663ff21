import { z } from "zod";

/**
 * A whole number in the path or the query, where everything arrives as text.
 *
 * @param name what a rule calls it
 */
export function wholeNumberParameter(name: string, least: number, most: number) {
  return z.preprocess(
    numberIn,
    z
      .int("must be a whole number, written with digits only and no leading zero")
      .min(least, `${name} is at least ${least}`)
      .max(most, `${name} is at most ${most}`),
  );
}

/** What is no number in digits is left as it is, for the schema to refuse. Beyond `most` all are alike. */
function numberIn(text: unknown): unknown {
  if (typeof text !== "string" || !/^(0|[1-9]\d*)$/.test(text)) return text;
  return Math.min(Number(text), Number.MAX_SAFE_INTEGER);
}
