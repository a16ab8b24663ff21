import { sql } from "kysely";
import type { Kysely } from "kysely";
import type { EstimateDocument } from "../domain/estimate-document.ts";
import type { EstimateResult } from "../domain/estimate-result.ts";
import type { SimulationOptions } from "../domain/simulation-options.ts";
import { insertEstimate } from "./estimate-store.ts";
import { inWorkspace } from "./in-workspace.ts";
import type { Workspace } from "./in-workspace.ts";
import type { LeasedJob } from "./job-queue.ts";
import type { JobProblem, Tables } from "./tables.ts";

/** What a worker is to compute. */
export interface JobTask {
  readonly document: EstimateDocument;
  readonly options: SimulationOptions;
}

/** How far a worker has come. */
export interface JobAdvance {
  /** Share of the work done, 0 to 1. */
  readonly progress: number;
  /** Result of the draws made so far. */
  readonly partial?: EstimateResult | undefined;
}

/** How a lease ends. */
export type JobOutcome =
  /** `estimateId`: a new UUIDv7, for a job that makes an estimate. */
  | { readonly state: "done"; readonly result: EstimateResult; readonly estimateId: string }
  | { readonly state: "failed"; readonly problem: JobProblem }
  | { readonly state: "cancelled" }
  /** Back to the queue; `blameless` when the job is not why, so that the attempt does not count. */
  | { readonly state: "waiting"; readonly blameless: boolean };

/** Reads what a leased job asks for. @returns undefined when the lease is lost */
export function readTask(db: Kysely<Tables>, leased: LeasedJob): Promise<JobTask | undefined> {
  return inLease(db, leased, async (workspace) => {
    const found = await held(workspace, leased)
      .leftJoin("project_revision", (join) =>
        join
          .onRef("project_revision.workspace_id", "=", "job.workspace_id")
          .onRef("project_revision.project_id", "=", "job.project_id")
          .onRef("project_revision.revision_number", "=", "job.project_revision"),
      )
      .select(["job.options", "job.document", "project_revision.document as projectDocument"])
      .executeTakeFirst();
    const document = found?.document ?? found?.projectDocument;
    return found && document ? { document, options: found.options } : undefined;
  });
}

/**
 * Keeps a lease for some more seconds and tells how far the work is. What is stored never falls behind:
 * a worker that began anew shows its progress and partial result once they are beyond the one before's.
 *
 * @returns `lost` when another has the job or it has ended; `cancelled` when its worker shall stop
 */
export function renewLease(
  db: Kysely<Tables>,
  leased: LeasedJob,
  leaseSeconds: number,
  { progress, partial }: JobAdvance,
): Promise<"held" | "lost" | "cancelled"> {
  return inLease(db, leased, async ({ id, trx }) => {
    const renewed = await trx
      .updateTable("job")
      .set({
        leased_until: sql`clock_timestamp() + make_interval(secs => ${leaseSeconds})`,
        progress: sql`greatest(progress, ${progress}::double precision)`,
        ...(partial && { partial: furtherPartial(partial) }),
      })
      .where("workspace_id", "=", id)
      .where("job_id", "=", leased.jobId)
      .where("fence", "=", leased.fence)
      .where("state", "=", "running")
      .returning("cancel_requested")
      .executeTakeFirst();
    if (renewed === undefined) return "lost";
    return renewed.cancel_requested ? "cancelled" : "held";
  });
}

/**
 * Ends a lease: with the job's end, or by handing it back. An estimate is stored in the same transaction.
 *
 * @returns false when the lease is lost: then nothing was written
 */
export function finishJob(db: Kysely<Tables>, leased: LeasedJob, outcome: JobOutcome): Promise<boolean> {
  return inLease(db, leased, async (workspace) => {
    const job = await held(workspace, leased)
      .select(["job.kind", "job.project_id", "job.project_revision", "job.attempts"])
      .forUpdate()
      .executeTakeFirst();
    if (job === undefined) return false;
    await workspace.trx
      .updateTable("job")
      .set(await ended(workspace, job, outcome))
      .where("workspace_id", "=", workspace.id)
      .where("job_id", "=", leased.jobId)
      .execute();
    return true;
  });
}

/**
 * Does some work in the job's workspace. A worker that freezes in the middle must not keep the job's row
 * locked, or nobody could take the job over when the lease has run out.
 */
function inLease<T>(
  db: Kysely<Tables>,
  { workspaceId }: LeasedJob,
  work: (workspace: Workspace) => Promise<T>,
): Promise<T> {
  return inWorkspace(db, workspaceId, async (workspace) => {
    await sql`set local idle_in_transaction_session_timeout = '3s'`.execute(workspace.trx);
    return work(workspace);
  });
}

/** The job, as long as this lease is its last. */
function held({ id, trx }: Workspace, { jobId, fence }: LeasedJob) {
  return trx
    .selectFrom("job")
    .where("job.workspace_id", "=", id)
    .where("job.job_id", "=", jobId)
    .where("job.fence", "=", fence)
    .where("job.state", "=", "running");
}

type HeldJob = {
  kind: string;
  project_id: string | null;
  project_revision: number | null;
  attempts: number;
};

async function ended(workspace: Workspace, job: HeldJob, outcome: JobOutcome) {
  switch (outcome.state) {
    case "done":
      return done(workspace, job, outcome);
    case "failed":
      return { state: outcome.state, problem: JSON.stringify(outcome.problem) };
    case "cancelled":
      return { state: outcome.state };
    case "waiting":
      return { state: outcome.state, attempts: job.attempts - (outcome.blameless ? 1 : 0) };
  }
}

async function done(
  workspace: Workspace,
  { project_id, project_revision }: HeldJob,
  { result, estimateId }: JobOutcome & { state: "done" },
) {
  const end = { state: "done" as const, progress: 1, partial: null };
  if (project_id === null || project_revision === null) return { ...end, result: JSON.stringify(result) };
  const estimate = { id: estimateId, projectId: project_id, revision: project_revision, result };
  if (await insertEstimate(workspace, estimate)) return { ...end, estimate_id: estimateId };
  const detail = `The project ${project_id} was deleted before its estimate was done.`;
  return { state: "failed" as const, problem: JSON.stringify({ code: "project-deleted", detail }) };
}

function furtherPartial(partial: EstimateResult) {
  const { draws } = partial.engine;
  return sql<string>`case when (partial->'engine'->>'draws')::integer >= ${draws} then partial
    else ${JSON.stringify(partial)}::json end`;
}
