import { sql } from "kysely";
import { expect, test } from "vitest";
import { freshDatabase } from "../support/fresh-database.ts";

test("a session that ends between two queries of a transaction fails the transaction, not the process", async () => {
  const database = await freshDatabase();
  try {
    const work = database.db.transaction().execute(async (trx) => {
      const { rows } = await sql<{ pid: number }>`select pg_backend_pid() as pid`.execute(trx);
      await sql`select pg_terminate_backend(${rows[0]?.pid}, 5000)`.execute(database.admin);
      // The end of the session arrives while no query is under way.
      await new Promise((arrived) => setTimeout(arrived, 100));
      await sql`select 1`.execute(trx);
    });
    await expect(work).rejects.toThrow();
    expect((await sql`select 1 as one`.execute(database.db)).rows).toEqual([{ one: 1 }]);
  } finally {
    await database.drop();
  }
});
