import type { ColumnType, GeneratedAlways, JSONColumnType } from "kysely";
import type { EstimateDocument } from "../domain/estimate-document.ts";
import type { EstimateResult, Sampling } from "../domain/estimate-result.ts";

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

/** The tables as the app sees them; migrations/ is where they are defined. */
export interface Tables {
  workspace: WorkspaceTable;
  project: ProjectTable;
  project_revision: ProjectRevisionTable;
  estimate: EstimateTable;
}
