import type { EstimateDocument } from "../domain/estimate-document.ts";
import { DomainError } from "../numeric/domain-error.ts";
import type { Workspace } from "./in-workspace.ts";

/** What a caller writes: a valid document, the SHA-256 of its canonical JSON, who and why. */
export interface NewRevision {
  readonly document: EstimateDocument;
  readonly documentDigest: string;
  readonly author: string;
  readonly note?: string | undefined;
}

/** Who wrote a revision, when and why. */
export interface Revision {
  readonly revision: number;
  readonly documentDigest: string;
  readonly title: string;
  readonly author: string;
  readonly note: string | undefined;
  readonly createdAt: Date;
}

/** A revision with its document. */
export interface StoredDocument extends Revision {
  readonly document: EstimateDocument;
}

/** The document of one revision, the newest unless another is asked for. */
export async function readDocument(
  workspace: Workspace,
  id: string,
  revision?: number,
): Promise<StoredDocument | undefined> {
  const query = revisionsOf(workspace, id).select("project_revision.document");
  const found = await (
    revision === undefined
      ? query.whereRef("project_revision.revision_number", "=", "project.revision_number")
      : query.where("project_revision.revision_number", "=", revision)
  ).executeTakeFirst();
  return found && { ...found, note: found.note ?? undefined };
}

/** Newest first; `before` is the number of the last revision of the page before. None: no such project. */
export async function listRevisions(
  workspace: Workspace,
  id: string,
  page: { limit: number; before?: number | undefined },
): Promise<Revision[]> {
  let query = revisionsOf(workspace, id)
    .orderBy("project_revision.revision_number", "desc")
    .limit(page.limit);
  if (page.before !== undefined) query = query.where("project_revision.revision_number", "<", page.before);
  const found = await query.execute();
  return found.map((revision) => ({ ...revision, note: revision.note ?? undefined }));
}

/**
 * Adds the next revision. Of any number of writers who expect the same revision exactly one succeeds: the
 * others wait for its row and then find it moved on.
 *
 * @returns the new revision's number; undefined when there is no such project
 * @throws {DomainError} `revision-conflict` when the project is at another revision than expected
 */
export async function putDocument(
  workspace: Workspace,
  id: string,
  { expectedRevision, ...written }: NewRevision & { expectedRevision: number },
): Promise<number | undefined> {
  const next = expectedRevision + 1;
  const { numUpdatedRows } = await workspace.trx
    .updateTable("project")
    .set({ revision_number: next })
    .where("workspace_id", "=", workspace.id)
    .where("project_id", "=", id)
    .where("revision_number", "=", expectedRevision)
    .where("deleted_at", "is", null)
    .executeTakeFirstOrThrow();
  if (numUpdatedRows > 0n) {
    await addRevision(workspace, id, next, written);
    return next;
  }
  const [newest] = await listRevisions(workspace, id, { limit: 1 });
  if (newest === undefined) return undefined;
  throw new DomainError(
    "revision-conflict",
    `project ${id} is at revision ${newest.revision}, not at revision ${expectedRevision} as expected`,
  );
}

/** Writes a row whose number its caller has secured. */
export async function addRevision(
  workspace: Workspace,
  id: string,
  revision: number,
  written: NewRevision,
): Promise<void> {
  await workspace.trx
    .insertInto("project_revision")
    .values({
      workspace_id: workspace.id,
      project_id: id,
      revision_number: revision,
      document: JSON.stringify(written.document),
      document_digest: written.documentDigest,
      author: written.author,
      note: written.note ?? null,
    })
    .execute();
}

function revisionsOf({ id, trx }: Workspace, projectId: string) {
  return trx
    .selectFrom("project_revision")
    .innerJoin("project", (join) =>
      join
        .onRef("project.workspace_id", "=", "project_revision.workspace_id")
        .onRef("project.project_id", "=", "project_revision.project_id"),
    )
    .where("project_revision.workspace_id", "=", id)
    .where("project_revision.project_id", "=", projectId)
    .where("project.deleted_at", "is", null)
    .select([
      "project_revision.revision_number as revision",
      "project_revision.document_digest as documentDigest",
      "project_revision.title",
      "project_revision.author",
      "project_revision.note",
      "project_revision.created_at as createdAt",
    ]);
}
