import { sql } from "kysely";
import type { Migration } from "kysely";

/**
 * The ground the other tables stand on: the role the app works as, the workspace that row-level security
 * reads, and the two functions that later tables share.
 */
export const workspaces: Migration = {
  async up(db) {
    await sql`
      -- Roles belong to the whole server: another database of it may have made this one already.
      -- LOGIN without a password opens nothing on a server that asks for one, and lets the owner of a
      -- server give one.
      do $$ begin
        create role restoration_app login;
      exception when duplicate_object or unique_violation then null;
      end $$;

      do $$ begin
        if exists (select from pg_roles where rolname = 'restoration_app' and (rolsuper or rolbypassrls)) then
          raise 'role restoration_app must not be a superuser or bypass row-level security';
        end if;
        -- From Postgres 16 on, making a role does not yet allow taking it.
        begin
          set local role restoration_app;
          reset role;
        exception when insufficient_privilege then
          execute format('grant restoration_app to %I', current_user);
        end;
        execute format('grant usage on schema %I to restoration_app', current_schema());
      end $$;

      -- A setting that a finished transaction had set reads as an empty string, not as null.
      create function current_workspace_id() returns uuid language sql stable
        return nullif(current_setting('app.workspace_id', true), '')::uuid;
      comment on function current_workspace_id() is
        'workspace whose rows this transaction sees; null (no rows) unless set';

      create function is_uuid_v7(id uuid) returns boolean language sql immutable
        return substr(id::text, 15, 1) = '7';
      comment on function is_uuid_v7(uuid) is 'UUIDs of version 7 sort by the time they were made';

      create function refuse_change() returns trigger language plpgsql as $$
      begin
        raise '% of % refused: its rows are kept as they were written', lower(tg_op), tg_table_name
          using errcode = 'restrict_violation';
      end $$;

      create table workspace (
        workspace_id uuid primary key,
        name text not null check (length(name) between 1 and 200),
        created_at timestamptz not null default now()
      );
      comment on table workspace is 'one tenant; every other row belongs to exactly one';
      comment on column workspace.workspace_id is 'made by the app';
      comment on column workspace.name is '1 to 200 characters';
      comment on column workspace.created_at is 'server time';

      alter table workspace enable row level security, force row level security;
      create policy own_workspace on workspace
        using (workspace_id = current_workspace_id()) with check (workspace_id = current_workspace_id());
      grant select, insert (workspace_id, name) on workspace to restoration_app;
    `.execute(db);
  },
};
