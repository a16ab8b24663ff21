import type { EstimateDocument } from "../domain/estimate-document.ts";
import type { EstimateResult, Sampling } from "../domain/estimate-result.ts";
import type { Workspace } from "./in-workspace.ts";

/** How a stored estimate was computed, without its figures. */
export interface Estimate {
  readonly id: string;
  readonly projectId: string;
  /** The project's revision it was computed from. */
  readonly revision: number;
  readonly createdAt: Date;
  readonly documentDigest: string;
  readonly resultDigest: string;
  readonly engineVersion: string;
  readonly seed: number;
  readonly draws: number;
  readonly sampling: Sampling;
}

/** A stored estimate with the document it was computed from and what came out. */
export interface StoredEstimate extends Estimate {
  readonly document: EstimateDocument;
  readonly result: EstimateResult;
}

/**
 * Keeps a result for ever.
 *
 * @param estimate.id a new UUIDv7
 * @param estimate.revision the revision whose document it was computed from; the database refuses a
 *   result whose `documentDigest` is not that revision's
 * @returns whether it was kept: not when there is no such project
 */
export async function insertEstimate(
  workspace: Workspace,
  estimate: { id: string; projectId: string; revision: number; result: EstimateResult },
): Promise<boolean> {
  const project = await workspace.trx
    .selectFrom("project")
    .select("project_id")
    .where("workspace_id", "=", workspace.id)
    .where("project_id", "=", estimate.projectId)
    .where("deleted_at", "is", null)
    .executeTakeFirst();
  if (project === undefined) return false;
  await workspace.trx
    .insertInto("estimate")
    .values({
      workspace_id: workspace.id,
      estimate_id: estimate.id,
      project_id: estimate.projectId,
      revision_number: estimate.revision,
      result: JSON.stringify(estimate.result),
    })
    .execute();
  return true;
}

/** Of one project, newest first; `after` is the id of the last estimate of the page before. */
export async function listEstimates(
  workspace: Workspace,
  projectId: string,
  page: { limit: number; after?: string | undefined },
): Promise<Estimate[]> {
  let query = estimatesOf(workspace, projectId).orderBy("estimate.estimate_id", "desc").limit(page.limit);
  if (page.after !== undefined) query = query.where("estimate.estimate_id", "<", page.after);
  return (await query.execute()).map(withNumericSeed);
}

export async function getEstimate(
  workspace: Workspace,
  projectId: string,
  id: string,
): Promise<StoredEstimate | undefined> {
  const found = await estimatesOf(workspace, projectId)
    .innerJoin("project_revision", (join) =>
      join
        .onRef("project_revision.workspace_id", "=", "estimate.workspace_id")
        .onRef("project_revision.project_id", "=", "estimate.project_id")
        .onRef("project_revision.revision_number", "=", "estimate.revision_number"),
    )
    .select(["project_revision.document", "estimate.result"])
    .where("estimate.estimate_id", "=", id)
    .executeTakeFirst();
  return found && withNumericSeed(found);
}

/** Those of a deleted project are hidden with it. */
function estimatesOf({ id, trx }: Workspace, projectId: string) {
  return trx
    .selectFrom("estimate")
    .innerJoin("project", (join) =>
      join
        .onRef("project.workspace_id", "=", "estimate.workspace_id")
        .onRef("project.project_id", "=", "estimate.project_id"),
    )
    .where("estimate.workspace_id", "=", id)
    .where("estimate.project_id", "=", projectId)
    .where("project.deleted_at", "is", null)
    .select([
      "estimate.estimate_id as id",
      "estimate.project_id as projectId",
      "estimate.revision_number as revision",
      "estimate.created_at as createdAt",
      "estimate.document_digest as documentDigest",
      "estimate.result_digest as resultDigest",
      "estimate.engine_version as engineVersion",
      "estimate.seed",
      "estimate.draws",
      "estimate.sampling",
    ]);
}

/** Every seed is below 2^53, so the number is the same. */
function withNumericSeed<T extends { seed: string }>(estimate: T) {
  return { ...estimate, seed: Number(estimate.seed) };
}
