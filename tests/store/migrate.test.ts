import { sql } from "kysely";
import { expect, test } from "vitest";
import { migrateToLatest } from "../../src/store/migrate.ts";
import { openAdminDatabase } from "../../src/store/open-database.ts";
import { freshDatabase } from "../support/fresh-database.ts";

const executed = sql<{ name: string }>`select name from kysely_migration order by name`;

test("migrateToLatest() run by five processes at once takes each step once", async () => {
  const database = await freshDatabase({ migrated: false });
  const admins = Array.from({ length: 5 }, () => openAdminDatabase(database.server));
  try {
    await Promise.all(admins.map((admin) => migrateToLatest(admin)));
    const { rows } = await executed.execute(database.admin);
    expect(rows.map((row) => row.name)).toEqual([
      "0001-workspaces",
      "0002-projects",
      "0003-estimates",
      "0004-jobs",
      "0005-idempotency-keys",
    ]);
  } finally {
    await Promise.all(admins.map((admin) => admin.destroy()));
    await database.drop();
  }
});

test("migrateToLatest() leaves an up-to-date database alone", async () => {
  const database = await freshDatabase();
  try {
    const before = await executed.execute(database.admin);
    await migrateToLatest(database.admin);
    expect((await executed.execute(database.admin)).rows).toEqual(before.rows);
  } finally {
    await database.drop();
  }
});
