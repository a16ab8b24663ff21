import { sql } from "kysely";
import { afterAll, beforeAll, expect, test } from "vitest";
import { freshDatabase } from "../support/fresh-database.ts";
import type { FreshDatabase } from "../support/fresh-database.ts";
import { workspaceFaults } from "./workspace-faults.ts";

let database: FreshDatabase;
beforeAll(async () => {
  database = await freshDatabase();
});
afterAll(() => database.drop());

test("every table keeps the rules of workspace data", async () => {
  expect(await workspaceFaults(database.admin)).toEqual([]);
});

// Each planted violation is undone with its transaction.
test.each([
  ["create table p (id uuid primary key)", "p has no workspace_id"],
  ["create table p (workspace_id uuid not null)", "p has no primary key"],
  [
    "create table p (id uuid, workspace_id uuid, primary key (id, workspace_id))",
    "p does not lead with workspace_id in p_pkey",
  ],
  [
    "create unique index by_digest on estimate (result_digest)",
    "estimate does not lead with workspace_id in by_digest",
  ],
  [
    "create table p (workspace_id uuid, id uuid, primary key (workspace_id, id), unique (id, workspace_id)); " +
      "alter table p add constraint f foreign key (id, workspace_id) references p (id, workspace_id)",
    "p does not lead with workspace_id in f",
  ],
  ["alter table project disable row level security", "project has row-level security off"],
  ["alter table project no force row level security", "project does not force row-level security"],
  ["drop policy own_workspace on estimate", "estimate has no policy for its workspace"],
  ["create policy wide on estimate for select using (true)", "estimate has the looser policy wide"],
  [
    "grant create on schema public to restoration_app; alter table project owner to restoration_app",
    "project belongs to restoration_app",
  ],
  ["grant delete on estimate to restoration_app", "estimate lets restoration_app delete"],
  [
    "create or replace function current_workspace_id() returns uuid language sql return null::uuid",
    "current_workspace_id() does not read app.workspace_id",
  ],
])("workspaceFaults() sees: %s", async (violation, fault) => {
  const seen = database.admin.transaction().execute(async (trx) => {
    await sql.raw(violation).execute(trx);
    throw new Planted(await workspaceFaults(trx));
  });
  await expect(seen).rejects.toMatchObject({ faults: expect.arrayContaining([fault]) as string[] });
});

test("the app works as a role that is no superuser, cannot bypass row-level security and owns nothing", async () => {
  const { rows } = await sql`
    select current_user as name, rolsuper, rolbypassrls, current_setting('is_superuser') as is_superuser,
      (select count(*)::int from pg_class where relowner = pg_roles.oid) as owned,
      pg_has_role(current_user, (select relowner from pg_class where oid = 'project'::regclass), 'member') as is_owner
    from pg_roles where rolname = current_user`.execute(database.db);
  expect(rows).toEqual([
    {
      name: "restoration_app",
      rolsuper: false,
      rolbypassrls: false,
      is_superuser: "off",
      owned: 0,
      is_owner: false,
    },
  ]);
});

class Planted extends Error {
  readonly faults: string[];
  constructor(faults: string[]) {
    super("undo");
    this.faults = faults;
  }
}
