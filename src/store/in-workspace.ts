import { sql } from "kysely";
import type { Kysely, Transaction } from "kysely";
import type { Tables } from "./tables.ts";

/** A transaction within one workspace: what every store function works in. */
export interface Workspace {
  readonly id: string;
  readonly trx: Transaction<Tables>;
}

/**
 * Does some work in one transaction that sees one workspace's rows and no others. The setting ends with
 * the transaction, so a connection back in the pool sees nothing.
 */
export function inWorkspace<T>(
  db: Kysely<Tables>,
  workspaceId: string,
  work: (workspace: Workspace) => Promise<T>,
): Promise<T> {
  return db.transaction().execute(async (trx) => {
    await sql`select set_config('app.workspace_id', ${workspaceId}, true)`.execute(trx);
    return work({ id: workspaceId, trx });
  });
}
