import { randomBytes } from "node:crypto";
import type { Kysely } from "kysely";
import { inject } from "vitest";
import { openAdminDatabase, openAppDatabase } from "../../src/store/open-database.ts";
import type { Tables } from "../../src/store/tables.ts";
import { onServer } from "./postgres-for-tests.ts";
import type { TestServer } from "./postgres-for-tests.ts";

/** A database of one test file's own. */
export interface FreshDatabase {
  /** As the app works: in the role without rights over the tables. */
  readonly db: Kysely<Tables>;
  /** As the administrator, who owns the tables. */
  readonly admin: Kysely<unknown>;
  readonly server: TestServer;
  /** Closes both and drops the database. */
  drop(): Promise<void>;
}

/** Copies the migrated template, or with `{ migrated: false }` makes an empty database. */
export async function freshDatabase({ migrated = true } = {}): Promise<FreshDatabase> {
  const testServer = inject("testServer");
  const database = `restoration_test_${randomBytes(6).toString("hex")}`;
  const template = migrated ? inject("templateDatabase") : "template0";
  await onServer(testServer, `create database ${database} template ${template}`);
  const server = { ...testServer, database };
  const db = openAppDatabase(server);
  const admin = openAdminDatabase(server);
  const drop = async () => {
    await Promise.all([db.destroy(), admin.destroy()]);
    await onServer(testServer, `drop database ${database} with (force)`);
  };
  return { db, admin, server, drop };
}
