import type { Kysely } from "kysely";
import type { SimulationPool } from "../jobs/simulation-pool.ts";
import type { Workspace } from "../store/in-workspace.ts";
import { inWorkspace } from "../store/in-workspace.ts";
import type { Tables } from "../store/tables.ts";

/** What the routes work with; all of it arrives from outside. */
export interface AppContext {
  readonly db: Kysely<Tables>;
  readonly pool: SimulationPool;
  /** The one workspace this app serves. */
  readonly workspaceId: string;
  /** A new UUIDv7. */
  readonly newId: () => string;
}

/** Does some work in one transaction of the app's workspace. */
export function transact<T>(
  { db, workspaceId }: AppContext,
  work: (workspace: Workspace) => Promise<T>,
): Promise<T> {
  return inWorkspace(db, workspaceId, work);
}
