import { sql } from "kysely";
import type { Kysely } from "kysely";

/**
 * Every way in which a table of the database breaks the rules of workspace data, as sentences; empty when
 * all hold.
 */
export async function workspaceFaults(admin: Kysely<unknown>): Promise<string[]> {
  const { rows } = await sql<{ fault: string }>`
    with tables as (
      select c.oid, c.relname, c.relrowsecurity, c.relforcerowsecurity, c.relowner
      from pg_class c
      where c.relnamespace = current_schema()::regnamespace and c.relkind in ('r', 'p')
        and c.relname not in ('kysely_migration', 'kysely_migration_lock')
    ),
    key_columns as (
      select i.indrelid as oid, i.indexrelid::regclass::text as key, i.indkey[0] as first_column
      from pg_index i where i.indisunique
      union all
      select f.conrelid, f.conname, f.conkey[1] from pg_constraint f where f.contype = 'f'
      union all
      select f.confrelid, f.conname, f.confkey[1] from pg_constraint f where f.contype = 'f'
    )
    select relname || ' has no workspace_id' as fault from tables t
      where not exists (
        select from pg_attribute a where a.attrelid = t.oid and a.attname = 'workspace_id' and a.attnotnull)
    union all
    select relname || ' has no primary key' from tables t
      where not exists (select from pg_index i where i.indrelid = t.oid and i.indisprimary)
    union all
    select relname || ' does not lead with workspace_id in ' || k.key
      from tables t join key_columns k using (oid)
      join pg_attribute a on a.attrelid = t.oid and a.attnum = k.first_column
      where a.attname <> 'workspace_id'
    union all
    select relname || ' has row-level security off' from tables where not relrowsecurity
    union all
    select relname || ' does not force row-level security' from tables where not relforcerowsecurity
    union all
    select relname || ' has no policy for its workspace' from tables t
      where not exists (select from pg_policy p where p.polrelid = t.oid and p.polcmd = '*')
    union all
    select relname || ' has the looser policy ' || p.polname from tables t join pg_policy p on p.polrelid = t.oid
      where pg_get_expr(p.polqual, t.oid) is distinct from '(workspace_id = current_workspace_id())'
        or pg_get_expr(p.polwithcheck, t.oid) is distinct from '(workspace_id = current_workspace_id())'
    union all
    select relname || ' belongs to restoration_app' from tables where relowner = 'restoration_app'::regrole
    union all
    select relname || ' lets restoration_app ' || privilege from tables,
      unnest(array['delete', 'truncate', 'references', 'trigger']) as privilege
      where has_table_privilege('restoration_app', oid, privilege)
    union all
    select 'current_workspace_id() does not read app.workspace_id'
      where pg_get_functiondef('current_workspace_id'::regproc) not like '%current_setting(''app.workspace_id''%'
    union all
    select 'restoration_app is too mighty' from pg_roles
      where rolname = 'restoration_app'
        and (rolsuper or rolbypassrls or rolcreaterole or rolcreatedb or rolreplication
          or exists (select from pg_auth_members m where m.member = pg_roles.oid))
    order by fault`.execute(admin);
  return rows.map((row) => row.fault);
}
