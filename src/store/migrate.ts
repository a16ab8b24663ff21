import { Migrator } from "kysely";
import type { Kysely, Migration } from "kysely";
import { workspaces } from "../../migrations/0001-workspaces.ts";
import { projects } from "../../migrations/0002-projects.ts";
import { estimates } from "../../migrations/0003-estimates.ts";
import { jobs } from "../../migrations/0004-jobs.ts";
import { idempotencyKeys } from "../../migrations/0005-idempotency-keys.ts";

const migrations: Record<string, Migration> = {
  "0001-workspaces": workspaces,
  "0002-projects": projects,
  "0003-estimates": estimates,
  "0004-jobs": jobs,
  "0005-idempotency-keys": idempotencyKeys,
};

/**
 * Brings a database's tables up to date, one transaction a migration. Any number of processes may do so
 * at once: each step is taken under a lock.
 *
 * @param adminDb connection of a user who may make tables and roles
 */
export async function migrateToLatest(adminDb: Kysely<unknown>): Promise<void> {
  const provider = { getMigrations: () => Promise.resolve(migrations) };
  const migrator = new Migrator({ db: adminDb, provider });
  for (;;) {
    const { error, results } = await migrator.migrateUp();
    if (error !== undefined) throw error;
    if (results === undefined || results.length === 0) return;
  }
}
