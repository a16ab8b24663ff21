import type { Kysely } from "kysely";
import type { Predictor } from "../jobs/predicted-ms.ts";
import type { SimulationPool } from "../jobs/simulation-pool.ts";
import type { Workspace } from "../store/in-workspace.ts";
import { inWorkspace } from "../store/in-workspace.ts";
import type { JobEvents } from "../store/job-events.ts";
import type { Tables } from "../store/tables.ts";

/** What the routes work with; all of it arrives from outside. */
export interface AppContext {
  readonly db: Kysely<Tables>;
  readonly pool: SimulationPool;
  readonly predictor: Pick<Predictor, "predictedMs">;
  readonly jobEvents: Pick<JobEvents, "onChanged">;
  /** Jobs that may wait for a worker, over all workspaces. */
  readonly mostJobsWaiting: number;
  /** The one workspace this app serves. */
  readonly workspaceId: string;
  /** A new UUIDv7. */
  readonly newId: () => string;
}

/** Does some work in one transaction of the app's workspace. */
export function transact<T>(
  { db, workspaceId }: Pick<AppContext, "db" | "workspaceId">,
  work: (workspace: Workspace) => Promise<T>,
): Promise<T> {
  return inWorkspace(db, workspaceId, work);
}
