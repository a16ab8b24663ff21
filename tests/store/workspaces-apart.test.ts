import { sql } from "kysely";
import { v7 } from "uuid";
import { afterAll, beforeAll, expect, test } from "vitest";
import * as documentStore from "../../src/store/document-store.ts";
import * as estimateStore from "../../src/store/estimate-store.ts";
import * as idempotencyStore from "../../src/store/idempotency-store.ts";
import type { Workspace } from "../../src/store/in-workspace.ts";
import * as jobLease from "../../src/store/job-lease.ts";
import { leaseJob } from "../../src/store/job-queue.ts";
import * as jobStore from "../../src/store/job-store.ts";
import { openAppDatabase } from "../../src/store/open-database.ts";
import * as projectStore from "../../src/store/project-store.ts";
import { freshDatabase } from "../support/fresh-database.ts";
import type { FreshDatabase } from "../support/fresh-database.ts";
import { newWorkspace, sampleDocument, sampleResult, sampleRevision } from "./sample-estimate.ts";

const [projectId, onlyTheirs, estimateId, jobId] = [v7(), v7(), v7(), v7()];
const ours = sampleRevision("ours");
const theirs = sampleRevision("theirs");
const result = sampleResult(theirs.documentDigest);
const keyed = { key: "theirs", requestDigest: theirs.documentDigest, location: "/theirs" };
const job = { kind: "simulation", document: sampleDocument("theirs"), options: {} } as const;

let database: FreshDatabase;
let inOurs: Awaited<ReturnType<typeof newWorkspace>>;
let inTheirs: typeof inOurs;

/** The two workspaces even have a project of the same id; theirs has more of everything. */
beforeAll(async () => {
  database = await freshDatabase();
  [inOurs, inTheirs] = [await newWorkspace(database), await newWorkspace(database)];
  await inTheirs(async (workspace) => {
    for (const id of [projectId, onlyTheirs]) {
      await projectStore.createProject(workspace, { id, ...theirs });
      await documentStore.putDocument(workspace, id, { expectedRevision: 1, ...theirs });
    }
    await estimateStore.insertEstimate(workspace, { id: estimateId, projectId, revision: 1, result });
    await jobStore.createJob(workspace, { jobId, ...job });
    await idempotencyStore.takeKey(workspace, keyed);
  });
  await inOurs((workspace) => projectStore.createProject(workspace, { id: projectId, ...ours }));
});
afterAll(() => database.drop());

const all = { limit: 100 };
/** For each store function, in this order: what it gives to someone who asks for theirs from ours. */
const seenFromOurs: Record<string, [(workspace: Workspace) => Promise<unknown>, unknown]> = {
  listProjects: [
    (workspace) => projectStore.listProjects(workspace, all),
    [{ id: projectId, title: "ours" }],
  ],
  getProject: [(workspace) => projectStore.getProject(workspace, onlyTheirs), undefined],
  lockProject: [(workspace) => projectStore.lockProject(workspace, onlyTheirs), undefined],
  deleteProject: [(workspace) => projectStore.deleteProject(workspace, onlyTheirs), false],
  createProject: [(workspace) => projectStore.createProject(workspace, { id: v7(), ...ours }), undefined],
  readDocument: [(workspace) => documentStore.readDocument(workspace, projectId, 2), undefined],
  listRevisions: [
    (workspace) => documentStore.listRevisions(workspace, projectId, all),
    [{ revision: 1, title: "ours" }],
  ],
  putDocument: [
    (workspace) => documentStore.putDocument(workspace, onlyTheirs, { expectedRevision: 2, ...ours }),
    undefined,
  ],
  addRevision: [
    async (workspace) => {
      const { trx } = workspace;
      await trx
        .updateTable("project")
        .set({ revision_number: 2 })
        .where("project_id", "=", projectId)
        .execute();
      return documentStore.addRevision(workspace, projectId, 2, ours);
    },
    undefined,
  ],
  listEstimates: [(workspace) => estimateStore.listEstimates(workspace, projectId, all), []],
  getEstimate: [(workspace) => estimateStore.getEstimate(workspace, projectId, estimateId), undefined],
  insertEstimate: [
    (workspace) =>
      estimateStore.insertEstimate(workspace, { id: v7(), projectId: onlyTheirs, revision: 1, result }),
    false,
  ],
  findJob: [(workspace) => jobStore.findJob(workspace, jobId), undefined],
  listJobs: [(workspace) => jobStore.listJobs(workspace, all), []],
  requestCancel: [(workspace) => jobStore.requestCancel(workspace, jobId), undefined],
  // The one thing that is told across workspaces: how busy their common workers are.
  countWaiting: [({ trx }) => jobStore.countWaiting(trx), 1],
  createJob: [
    async (workspace) => (await jobStore.createJob(workspace, { jobId: v7(), ...job })).state,
    "waiting",
  ],
  findKey: [(workspace) => idempotencyStore.findKey(workspace, keyed.key), undefined],
  takeKey: [(workspace) => idempotencyStore.takeKey(workspace, { ...keyed, location: "/ours" }), true],
  readTask: [(workspace) => jobLease.readTask(database.db, leasedBy(workspace)), undefined],
  renewLease: [
    (workspace) => jobLease.renewLease(database.db, leasedBy(workspace), 60, { progress: 0.5 }),
    "lost",
  ],
  finishJob: [
    (workspace) => jobLease.finishJob(database.db, leasedBy(workspace), { state: "cancelled" }),
    false,
  ],
};

/** A lease of their job, claimed for our workspace. */
const leasedBy = ({ id }: Workspace) => ({ workspaceId: id, jobId, fence: "0" });

test("every store function has its case here", () => {
  const stores = [projectStore, documentStore, estimateStore, jobStore, jobLease, idempotencyStore];
  const functions = stores.flatMap((store) => Object.keys(store));
  expect(functions.sort()).toEqual(Object.keys(seenFromOurs).sort());
});

test.each(Object.keys(seenFromOurs))(
  "%s() from one workspace sees and changes nothing of another",
  async (name) => {
    const [call, expected] = seenFromOurs[name] ?? [];
    const before = await inTheirs(allRows);
    const given = await inOurs(async (workspace) => call?.(workspace));
    if (Array.isArray(expected)) {
      expect(given).toHaveLength(expected.length);
      expect(given).toMatchObject(expected);
    } else {
      expect(given).toBe(expected);
    }
    expect(await inTheirs(allRows)).toEqual(before);
  },
);

test("no query without a condition of its own sees, changes or adds rows of another workspace", async () => {
  const theirRows = await inTheirs(allRows);
  for (const [table, rows] of Object.entries(theirRows)) {
    expect(rows.length, `${table} has rows to leak`).toBeGreaterThan(0);
    await inOurs(async (workspace) => {
      const seen = await rowsOf(table, workspace);
      expect(
        seen.every((row) => row["workspace_id"] === workspace.id),
        table,
      ).toBe(true);
    });
  }
  const theirId = String(theirRows["workspace"]?.[0]?.["workspace_id"]);
  const row = { workspace_id: theirId, project_id: v7(), revision_number: 1 };
  const planted = inOurs(({ trx }) => trx.insertInto("project").values(row).execute());
  await expect(planted).rejects.toMatchObject({ code: "42501" });
  const changed = await inOurs(({ trx }) =>
    trx
      .updateTable("project")
      .set((is) => ({ revision_number: is.ref("revision_number") }))
      .execute(),
  );
  const { length: ourProjects } = await inOurs((workspace) => projectStore.listProjects(workspace, all));
  expect(changed).toMatchObject([{ numUpdatedRows: BigInt(ourProjects) }]);
  expect(await inTheirs(allRows)).toEqual(theirRows);
});

test("no estimate can be asked of another workspace's project", async () => {
  const stolen = { jobId: v7(), kind: "estimate", projectId: onlyTheirs, revision: 1, options: {} } as const;
  const attempt = inOurs((workspace) => jobStore.createJob(workspace, stolen));
  await expect(attempt).rejects.toMatchObject({ code: "23503" });
});

test("leaseJob() tells from anywhere whose turn it is, and nothing of what is asked", async () => {
  const taken = await leaseJob(database.db, "any", 60);
  const workspaceId = await inTheirs(({ id }) => Promise.resolve(id));
  expect(taken).toEqual({ workspaceId, jobId, fence: "1" });
  expect(await jobLease.readTask(database.db, taken!)).toEqual({ document: job.document, options: {} });
});

test("a connection sees nothing before and after its work in a workspace", async () => {
  const oneConnection = openAppDatabase({ ...database.server, max: 1 });
  try {
    const outside = () => sql`select from project`.execute(oneConnection);
    expect((await outside()).rows).toHaveLength(0);
    const within = await newWorkspace({ ...database, db: oneConnection });
    await within((workspace) => projectStore.createProject(workspace, { id: v7(), ...ours }));
    expect((await outside()).rows).toHaveLength(0);
  } finally {
    await oneConnection.destroy();
  }
});

async function allRows(workspace: Workspace): Promise<Record<string, Record<string, unknown>[]>> {
  const { rows } = await sql<{ name: string }>`
    select relname as name from pg_class join pg_attribute a on attrelid = pg_class.oid and attname = 'workspace_id'
    where relnamespace = current_schema()::regnamespace and relkind in ('r', 'p')`.execute(workspace.trx);
  const found: Record<string, Record<string, unknown>[]> = {};
  for (const { name } of rows) found[name] = await rowsOf(name, workspace);
  return found;
}

async function rowsOf(table: string, { trx }: Workspace): Promise<Record<string, unknown>[]> {
  const { rows } = await sql<
    Record<string, unknown>
  >`select * from ${sql.table(table)} order by ${sql.table(table)}::text`.execute(trx);
  return rows;
}
