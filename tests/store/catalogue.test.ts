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

/** The queue serves all workspaces; the test after the next says what that opens. */
const excused = ["job has the looser policy every_workspace"];

test("every table keeps the rules of workspace data", async () => {
  expect(await workspaceFaults(database.admin)).toEqual(excused);
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

test("the queue's role reads no content, has nothing but the queue, and nobody becomes it by being the app", async () => {
  const { rows } = await sql`
    select rolcanlogin or rolsuper or rolbypassrls or rolcreaterole or rolcreatedb as is_mighty,
      pg_has_role('restoration_app', oid, 'member') as is_the_apps,
      (select count(*)::int from pg_class where relowner = pg_roles.oid) as owned,
      has_schema_privilege(oid, current_schema(), 'create') as may_create,
      (select array_agg(polroles::regrole[]::text[]::text) from pg_policy where polname = 'every_workspace') as policy_for,
      (select array_agg(relname::text order by relname) from pg_class
        where relnamespace = current_schema()::regnamespace and relkind = 'r'
          and has_any_column_privilege(pg_roles.oid, pg_class.oid, 'select, insert, update, references')) as tables,
      (select array_agg(attname::text order by attname) from pg_attribute
        where attrelid = 'job'::regclass and attnum > 0
          and not has_column_privilege(pg_roles.oid, attrelid, attnum, 'select')) as hidden
    from pg_roles where rolname = 'restoration_queue'`.execute(database.admin);
  expect(rows).toEqual([
    {
      is_mighty: false,
      is_the_apps: false,
      owned: 0,
      may_create: false,
      policy_for: ["{restoration_queue}"],
      tables: ["job"],
      hidden: [
        "document",
        "estimate_id",
        "kind",
        "options",
        "partial",
        "problem",
        "progress",
        "project_id",
        "project_revision",
        "result",
        "revision",
        "worker",
      ],
    },
  ]);
});

test("what runs as another role is the queue's, with its search path pinned, and for the app alone", async () => {
  const { rows } = await sql`
    select proname as name, proowner::regrole::text as owner, proconfig as settings,
      has_function_privilege('restoration_app', oid, 'execute') as is_the_apps,
      exists (select from aclexplode(proacl) where grantee = 0) as is_everyones
    from pg_proc where pronamespace = current_schema()::regnamespace and prosecdef order by proname`.execute(
    database.admin,
  );
  const pinned = {
    owner: "restoration_queue",
    settings: ["search_path=public, pg_temp"],
    is_the_apps: true,
    is_everyones: false,
  };
  expect(rows).toEqual([
    { name: "count_waiting_jobs", ...pinned },
    { name: "forget_old_jobs", ...pinned },
    { name: "lease_job", ...pinned },
  ]);
});

test("a temporary table deceives no function that runs as another role", async () => {
  const counted = await database.db.transaction().execute(async (trx) => {
    await sql`create temporary table job (state text) on commit drop`.execute(trx);
    await sql`insert into pg_temp.job values ('waiting')`.execute(trx);
    return sql<{ waiting: string }>`select count_waiting_jobs() as waiting`.execute(trx);
  });
  expect(counted.rows).toEqual([{ waiting: "0" }]);
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
