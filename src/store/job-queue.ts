import { sql } from "kysely";
import type { Kysely } from "kysely";
import type { Tables } from "./tables.ts";

/** A job one worker may work on until its lease runs out. */
export interface LeasedJob {
  readonly workspaceId: string;
  readonly jobId: string;
  /** Number of the lease: a later one voids it. An int8, as text. */
  readonly fence: string;
}

/**
 * Takes the oldest job that waits or whose worker was lost, of any workspace. On the way it ends those
 * that are to be cancelled and those that too many workers were lost over.
 *
 * @param worker name of who takes it
 * @param leaseSeconds whole seconds, 1 to 60
 */
export async function leaseJob(
  db: Kysely<Tables>,
  worker: string,
  leaseSeconds: number,
): Promise<LeasedJob | undefined> {
  const { rows } = await sql<LeasedJob>`
    select leased_workspace_id as "workspaceId", leased_job_id as "jobId", leased_fence as fence
    from lease_job(${worker}, ${leaseSeconds})`.execute(db);
  return rows[0];
}

/** Removes the jobs that ended a week ago. @returns how many */
export async function forgetOldJobs(db: Kysely<Tables>): Promise<number> {
  const { rows } = await sql<{ forgotten: string }>`select forget_old_jobs() as forgotten`.execute(db);
  return Number(rows[0]?.forgotten ?? 0);
}
