import { addRevision } from "./document-store.ts";
import type { NewRevision } from "./document-store.ts";
import type { Workspace } from "./in-workspace.ts";

/** A live project, as its newest revision has it. */
export interface Project {
  readonly id: string;
  readonly title: string;
  readonly createdAt: Date;
  readonly updatedAt: Date;
  readonly revision: number;
  readonly documentDigest: string;
}

/** @param project.id a new UUIDv7 */
export async function createProject(
  workspace: Workspace,
  project: NewRevision & { id: string },
): Promise<void> {
  const key = { workspace_id: workspace.id, project_id: project.id, revision_number: 1 };
  await workspace.trx.insertInto("project").values(key).execute();
  await addRevision(workspace, project.id, 1, project);
}

/** Newest first; `after` is the id of the last project of the page before. */
export async function listProjects(
  workspace: Workspace,
  page: { limit: number; after?: string | undefined },
): Promise<Project[]> {
  let query = liveProjects(workspace).orderBy("project.project_id", "desc").limit(page.limit);
  if (page.after !== undefined) query = query.where("project.project_id", "<", page.after);
  return query.execute();
}

export async function getProject(workspace: Workspace, id: string): Promise<Project | undefined> {
  return liveProjects(workspace).where("project.project_id", "=", id).executeTakeFirst();
}

/** Keeps every other writer away from a project until the transaction ends, so that what is read next stays true. */
export async function lockProject(workspace: Workspace, id: string): Promise<void> {
  await workspace.trx
    .selectFrom("project")
    .select("project_id")
    .where("workspace_id", "=", workspace.id)
    .where("project_id", "=", id)
    .forUpdate()
    .execute();
}

/** Hides a project for good and keeps its history. @returns whether there was one to hide */
export async function deleteProject(workspace: Workspace, id: string): Promise<boolean> {
  const { numUpdatedRows } = await workspace.trx
    .updateTable("project")
    .set((is) => ({ deleted_at: is.fn<Date>("now", []) }))
    .where("workspace_id", "=", workspace.id)
    .where("project_id", "=", id)
    .where("deleted_at", "is", null)
    .executeTakeFirstOrThrow();
  return numUpdatedRows > 0n;
}

function liveProjects({ id, trx }: Workspace) {
  return trx
    .selectFrom("project")
    .innerJoin("project_revision", (join) =>
      join
        .onRef("project_revision.workspace_id", "=", "project.workspace_id")
        .onRef("project_revision.project_id", "=", "project.project_id")
        .onRef("project_revision.revision_number", "=", "project.revision_number"),
    )
    .where("project.workspace_id", "=", id)
    .where("project.deleted_at", "is", null)
    .select([
      "project.project_id as id",
      "project_revision.title",
      "project.created_at as createdAt",
      "project_revision.created_at as updatedAt",
      "project.revision_number as revision",
      "project_revision.document_digest as documentDigest",
    ]);
}
