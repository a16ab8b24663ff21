import { sql } from "kysely";
import type { Kysely } from "kysely";
import type { EstimateDocument } from "../domain/estimate-document.ts";
import type { EstimateResult } from "../domain/estimate-result.ts";
import type { SimulationOptions } from "../domain/simulation-options.ts";
import type { Workspace } from "./in-workspace.ts";
import type { JobKind, JobProblem, JobState, Tables } from "./tables.ts";

/** A simulation to be done; its id a new UUIDv7. */
export type NewJob = { readonly jobId: string; readonly options: SimulationOptions } & (
  | { readonly kind: "simulation"; readonly document: EstimateDocument }
  /** Of a revision there is: its document is read when the job runs. */
  | { readonly kind: "estimate"; readonly projectId: string; readonly revision: number }
);

/** Where a job stands, without its figures. */
export interface JobSummary {
  readonly jobId: string;
  readonly kind: JobKind;
  readonly options: SimulationOptions;
  readonly state: JobState;
  /** Share of the work done, 0 to 1; never falls. */
  readonly progress: number;
  /** Goes up with every change of what is shown here. */
  readonly revision: number;
  readonly cancelRequested: boolean;
  readonly attempts: number;
  readonly createdAt: Date;
  readonly startedAt?: Date;
  readonly finishedAt?: Date;
  /** Of an estimate: what it is computed from. */
  readonly projectId?: string;
  readonly projectRevision?: number;
  /** Of an estimate that is done. */
  readonly estimateId?: string;
  /** Of a job that failed. */
  readonly problem?: JobProblem;
}

/** A job with what is known of its result. */
export interface Job extends JobSummary {
  /** Of the draws made so far; of a job that was cancelled or failed: made until then. */
  readonly partial?: EstimateResult;
  /** Of a job that is done. */
  readonly result?: EstimateResult;
}

/** Puts a job into the queue; a worker is woken when the transaction commits. */
export async function createJob({ id, trx }: Workspace, job: NewJob): Promise<Job> {
  const isEstimate = job.kind === "estimate";
  await trx
    .insertInto("job")
    .values({
      workspace_id: id,
      job_id: job.jobId,
      kind: job.kind,
      project_id: isEstimate ? job.projectId : null,
      project_revision: isEstimate ? job.revision : null,
      document: isEstimate ? null : JSON.stringify(job.document),
      options: JSON.stringify(job.options),
    })
    .execute();
  const created = await findJob({ id, trx }, job.jobId);
  if (created === undefined) throw new Error(`job ${job.jobId} is not there though it was made just now`);
  return created;
}

export async function findJob(workspace: Workspace, jobId: string): Promise<Job | undefined> {
  const found = await jobsOf(workspace)
    .leftJoin("estimate", (join) =>
      join
        .onRef("estimate.workspace_id", "=", "job.workspace_id")
        .onRef("estimate.estimate_id", "=", "job.estimate_id"),
    )
    .select(["job.partial", "job.result", "estimate.result as estimated"])
    .where("job.job_id", "=", jobId)
    .executeTakeFirst();
  if (found === undefined) return undefined;
  const { partial, result, estimated, ...summary } = found;
  return { ...summaryOf(summary), ...present({ partial, result: result ?? estimated }) };
}

/** Newest first; `after` is the id of the last job of the page before. */
export async function listJobs(
  workspace: Workspace,
  page: { limit: number; after?: string | undefined },
): Promise<JobSummary[]> {
  let query = jobsOf(workspace).orderBy("job.job_id", "desc").limit(page.limit);
  if (page.after !== undefined) query = query.where("job.job_id", "<", page.after);
  return (await query.execute()).map(summaryOf);
}

/**
 * Asks for a job's end. One that nobody works on is cancelled at once; its worker stops one that runs;
 * one that has ended stays as it is.
 *
 * @returns the job after that; undefined when there is none
 */
export async function requestCancel(workspace: Workspace, jobId: string): Promise<Job | undefined> {
  await workspace.trx
    .updateTable("job")
    .set({
      cancel_requested: true,
      state: sql`case when state = 'waiting' or leased_until < clock_timestamp() then 'cancelled' else state end`,
    })
    .where("workspace_id", "=", workspace.id)
    .where("job_id", "=", jobId)
    .where("state", "in", ["waiting", "running"])
    .execute();
  return findJob(workspace, jobId);
}

/** How many jobs wait in all workspaces, since they share the workers: a number is all it tells. */
export async function countWaiting(db: Kysely<Tables>): Promise<number> {
  const { rows } = await sql<{ waiting: string }>`select count_waiting_jobs() as waiting`.execute(db);
  return Number(rows[0]?.waiting ?? 0);
}

function jobsOf({ id, trx }: Workspace) {
  return trx
    .selectFrom("job")
    .where("job.workspace_id", "=", id)
    .select([
      "job.job_id as jobId",
      "job.kind",
      "job.options",
      "job.state",
      "job.progress",
      "job.revision",
      "job.cancel_requested as cancelRequested",
      "job.attempts",
      "job.created_at as createdAt",
      "job.started_at as startedAt",
      "job.finished_at as finishedAt",
      "job.project_id as projectId",
      "job.project_revision as projectRevision",
      "job.estimate_id as estimateId",
      "job.problem",
    ]);
}

type SummaryRow = Awaited<ReturnType<ReturnType<typeof jobsOf>["execute"]>>[number];

function summaryOf({
  startedAt,
  finishedAt,
  projectId,
  projectRevision,
  estimateId,
  problem,
  ...job
}: SummaryRow) {
  return {
    ...job,
    // Counts changes, so it stays far below 2^53.
    revision: Number(job.revision),
    ...present({ startedAt, finishedAt, projectId, projectRevision, estimateId, problem }),
  };
}

type Present<T> = { [K in keyof T]?: NonNullable<T[K]> };

/** Leaves out what is null. */
function present<T extends Record<string, unknown>>(fields: T): Present<T> {
  return Object.fromEntries(
    Object.entries(fields).filter(([, value]) => value !== null && value !== undefined),
  ) as Present<T>;
}
