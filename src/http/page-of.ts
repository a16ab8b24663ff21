import { z } from "zod";
import { decodeCursor, encodeCursor } from "./cursor.ts";
import { wholeNumberParameter } from "./whole-number-parameter.ts";

/** Query parameters of a list. */
export const pageQuery = z.strictObject({
  limit: wholeNumberParameter("limit", 1, 200)
    .optional()
    .meta({ description: "Entries on a page; 50 unless given." }),
  cursor: z.string().max(200).optional().meta({ description: "The nextCursor of the page before." }),
});

/** What a list answers. */
export function pageSchema(entry: z.ZodType) {
  return z.strictObject({
    items: z.array(entry),
    nextCursor: z.string().optional().meta({ description: "Absent on the last page." }),
  });
}

const defaultLimit = 50;

/**
 * Reads one page of a list.
 *
 * @param list.read entries after the one named, at most `limit`
 * @param list.keyOf names an entry
 * @param list.form what a name looks like
 */
export async function pageOf<T>(
  query: z.infer<typeof pageQuery>,
  list: {
    read(page: { limit: number; after: string | undefined }): Promise<T[]>;
    keyOf(entry: T): string;
    form: RegExp;
  },
): Promise<{ items: T[]; nextCursor?: string }> {
  const limit = query.limit ?? defaultLimit;
  const after = query.cursor === undefined ? undefined : decodeCursor(query.cursor, list.form);
  // One more than asked for tells whether another page follows.
  const found = await list.read({ limit: limit + 1, after });
  const items = found.slice(0, limit);
  const last = items.at(-1);
  if (found.length <= limit || last === undefined) return { items };
  return { items, nextCursor: encodeCursor(list.keyOf(last)) };
}
