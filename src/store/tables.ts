import type { ColumnType, GeneratedAlways, JSONColumnType } from "kysely";
import type { EstimateDocument } from "../domain/estimate-document.ts";
import type { EstimateResult, Sampling } from "../domain/estimate-result.ts";
import type { SimulationOptions } from "../domain/simulation-options.ts";

/** Written once, by the database's clock. */
type ServerTime = ColumnType<Date, never, never>;

interface WorkspaceTable {
  workspace_id: string;
  name: string;
  created_at: ServerTime;
}

interface ProjectTable {
  workspace_id: string;
  project_id: string;
  revision_number: number;
  created_at: ServerTime;
  deleted_at: ColumnType<Date | null, never, Date>;
}

interface ProjectRevisionTable {
  workspace_id: string;
  project_id: string;
  revision_number: number;
  document: JSONColumnType<EstimateDocument, string, never>;
  document_digest: string;
  format: GeneratedAlways<string>;
  title: GeneratedAlways<string>;
  author: string;
  note: string | null;
  created_at: ServerTime;
}

interface EstimateTable {
  workspace_id: string;
  estimate_id: string;
  project_id: string;
  revision_number: number;
  result: JSONColumnType<EstimateResult, string, never>;
  document_digest: GeneratedAlways<string>;
  result_digest: GeneratedAlways<string>;
  engine_version: GeneratedAlways<string>;
  /** An int8, which `pg` gives as text. */
  seed: GeneratedAlways<string>;
  draws: GeneratedAlways<number>;
  sampling: GeneratedAlways<Sampling>;
  created_at: ServerTime;
}

/** What a job computes: a result kept with the job, or an estimate of a project. */
export type JobKind = "simulation" | "estimate";
/** Where a job stands; the last three are ends. */
export type JobState = "waiting" | "running" | "done" | "failed" | "cancelled";

/** Why a job failed. */
export interface JobProblem {
  /** Of the error, for programs. */
  readonly code: string;
  /** For people. */
  readonly detail: string;
}

interface JobTable {
  workspace_id: string;
  job_id: string;
  kind: ColumnType<JobKind, JobKind, never>;
  project_id: ColumnType<string | null, string | null, never>;
  project_revision: ColumnType<number | null, number | null, never>;
  document: JSONColumnType<EstimateDocument | null, string | null, never>;
  options: JSONColumnType<SimulationOptions, string, never>;
  state: ColumnType<JobState, never, JobState>;
  progress: ColumnType<number, never, number>;
  /** An int8, which `pg` gives as text. */
  revision: GeneratedAlways<string>;
  partial: JSONColumnType<EstimateResult | null, never, string | null>;
  result: JSONColumnType<EstimateResult | null, never, string>;
  estimate_id: ColumnType<string | null, never, string>;
  problem: JSONColumnType<JobProblem | null, never, string>;
  cancel_requested: ColumnType<boolean, never, boolean>;
  /** An int8, which `pg` gives as text. */
  fence: GeneratedAlways<string>;
  leased_until: ColumnType<Date | null, never, Date>;
  worker: GeneratedAlways<string | null>;
  attempts: ColumnType<number, never, number>;
  created_at: ServerTime;
  started_at: ColumnType<Date | null, never, never>;
  finished_at: ColumnType<Date | null, never, never>;
}

interface IdempotencyKeyTable {
  workspace_id: string;
  key: string;
  request_digest: string;
  location: string;
  created_at: ServerTime;
}

/** The tables as the app sees them; migrations/ is where they are defined. */
export interface Tables {
  workspace: WorkspaceTable;
  project: ProjectTable;
  project_revision: ProjectRevisionTable;
  estimate: EstimateTable;
  job: JobTable;
  idempotency_key: IdempotencyKeyTable;
}
