import { sql } from "kysely";
import { v7 } from "uuid";
import { afterAll, beforeAll, expect, test } from "vitest";
import { insertEstimate } from "../../src/store/estimate-store.ts";
import { deleteProject } from "../../src/store/project-store.ts";
import { freshDatabase } from "../support/fresh-database.ts";
import type { FreshDatabase } from "../support/fresh-database.ts";
import { addRevision, listRevisions } from "../../src/store/document-store.ts";
import { newProject, newWorkspace, sampleResult, sampleRevision } from "./sample-estimate.ts";

let database: FreshDatabase;
beforeAll(async () => {
  database = await freshDatabase();
  const within = await newWorkspace(database);
  await within(async (workspace) => {
    const revision = sampleRevision();
    const projectId = await newProject(workspace, revision);
    const result = sampleResult(revision.documentDigest);
    await insertEstimate(workspace, { id: v7(), projectId, revision: 1, result });
    await deleteProject(workspace, await newProject(workspace));
  });
});
afterAll(() => database.drop());

const snapshot = sql`
  select (select json_agg(r order by project_id) from project_revision r) as revisions,
    (select json_agg(e) from estimate e) as estimates, (select json_agg(p order by project_id) from project p) as projects`;

const refused = "23001";
// As the administrator who owns the tables, also when replaying another server's changes.
test.each(["origin", "replica"])("the database refuses changes to what is kept (%s)", async (role) => {
  const before = (await snapshot.execute(database.admin)).rows;
  for (const change of [
    "update estimate set result = result",
    "update estimate set created_at = now() where false",
    "delete from estimate",
    "truncate estimate cascade",
    "truncate job",
    "update job set options = '{}' where false",
    "update idempotency_key set location = '/'",
    "delete from idempotency_key",
    "truncate idempotency_key",
    "update project_revision set author = 'somebody'",
    "delete from project_revision",
    "truncate project_revision cascade",
    "truncate workspace cascade",
    "delete from project",
    "update project set revision_number = revision_number + 2 where deleted_at is null",
    "update project set revision_number = revision_number - 1 where deleted_at is null",
    "update project set created_at = '2000-01-01' where deleted_at is null",
    "update project set deleted_at = null where deleted_at is not null",
    "insert into project select workspace_id, '00000000-0000-7000-8000-000000000009', 2 from workspace",
    "insert into project_revision (workspace_id, project_id, revision_number, document, document_digest, author) " +
      "select workspace_id, project_id, revision_number, document, document_digest, author from project_revision " +
      "on conflict (workspace_id, project_id, revision_number) do update set author = 'somebody'",
  ]) {
    const attempt = database.admin.transaction().execute(async (trx) => {
      await sql.raw(`set local session_replication_role = ${role}`).execute(trx);
      await sql.raw(change).execute(trx);
    });
    await expect(attempt, change).rejects.toMatchObject({
      code: change.startsWith("insert into project select") ? "23514" : refused,
    });
  }
  expect((await snapshot.execute(database.admin)).rows).toEqual(before);
});

test("the app's role has no right to change what is kept", async () => {
  for (const change of [
    "update estimate set result = result",
    "delete from estimate",
    "update project_revision set author = 'x'",
    "delete from project_revision",
    "delete from project",
    "update project set created_at = now()",
    "truncate estimate",
    "alter table estimate disable trigger all",
    "create table mine (id int)",
  ]) {
    await expect(sql.raw(change).execute(database.db), change).rejects.toMatchObject({ code: "42501" });
  }
});

test("the database refuses a project without its revision", async () => {
  const within = await newWorkspace(database);
  const alone = within(({ id, trx }) =>
    trx.insertInto("project").values({ workspace_id: id, project_id: v7(), revision_number: 1 }).execute(),
  );
  await expect(alone).rejects.toMatchObject({ code: "23503" });
});

const document = JSON.stringify(sampleRevision().document);
test.each([
  ["a document that is no object", { document: "[]" }],
  ["another format", { document: document.replace("restoration-estimate/1", "restoration-estimate/2") }],
  ["a document without format", { document: "{}" }],
  ["a digest that is none", { document_digest: "ABC" }],
  ["an empty author", { author: "" }],
  ["an empty note", { note: "" }],
  ["a revision number of 0", { revision_number: 0 }],
])("the database refuses a revision with %s", async (_, change) => {
  const within = await newWorkspace(database);
  const attempt = within(async (workspace) => {
    const project_id = await newProject(workspace);
    // The project may point at revision 2, so that only the row itself can be what is wrong.
    await workspace.trx.updateTable("project").set({ revision_number: 2 }).execute();
    const { documentDigest: document_digest, author } = sampleRevision();
    const row = {
      workspace_id: workspace.id,
      project_id,
      revision_number: 2,
      document,
      document_digest,
      author,
    };
    await workspace.trx
      .insertInto("project_revision")
      .values({ ...row, ...change })
      .execute();
  });
  await expect(attempt).rejects.toMatchObject({ code: expect.stringMatching(/^(23502|23514)$/) as string });
});

test.each([2, 77])(
  "the database refuses revision %i of a project that stays at its first",
  async (number) => {
    const within = await newWorkspace(database);
    const id = await within((workspace) => newProject(workspace));
    const stray = within((workspace) => addRevision(workspace, id, number, sampleRevision()));
    await expect(stray).rejects.toMatchObject({ code: "23514" });
    expect(await within((workspace) => listRevisions(workspace, id, { limit: 10 }))).toHaveLength(1);
  },
);

test("the database refuses ids that are not of version 7", async () => {
  const within = await newWorkspace(database);
  const attempt = within(({ id, trx }) =>
    trx
      .insertInto("project")
      .values({ workspace_id: id, project_id: crypto.randomUUID(), revision_number: 1 })
      .execute(),
  );
  await expect(attempt).rejects.toMatchObject({ code: "23514" });
});
