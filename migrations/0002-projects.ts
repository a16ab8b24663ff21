import { sql } from "kysely";
import type { Migration } from "kysely";

/**
 * A project is its document: every version of it is a row of project_revision, written once, and the
 * project points at the newest. Deleting hides a project and keeps its history.
 *
 * The document is `json`, not `jsonb`: that keeps the order of keys and the digits of numbers as they
 * came, so that what is read is what was written and a calculation over it repeats bit for bit.
 */
export const projects: Migration = {
  async up(db) {
    await sql`
      create table project (
        workspace_id uuid not null references workspace,
        project_id uuid not null check (is_uuid_v7(project_id)),
        revision_number integer not null,
        created_at timestamptz not null default now(),
        deleted_at timestamptz,
        primary key (workspace_id, project_id)
      );
      comment on table project is 'one restoration; its content is in project_revision';
      comment on column project.project_id is 'UUIDv7, made by the app';
      comment on column project.revision_number is 'newest revision';
      comment on column project.created_at is 'server time';
      comment on column project.deleted_at is 'server time it was hidden; null: live';

      create table project_revision (
        workspace_id uuid not null,
        project_id uuid not null,
        revision_number integer not null check (revision_number between 1 and 1000000000),
        document json not null
          check (json_typeof(document) = 'object')
          check (octet_length(document::text) <= 16777216),
        document_digest text not null check (document_digest ~ '^[0-9a-f]{64}$'),
        format text not null generated always as (document->>'format') stored
          check (format = 'restoration-estimate/1'),
        title text not null generated always as (document->>'title') stored
          check (length(title) between 1 and 200),
        author text not null check (length(author) between 1 and 200),
        note text check (length(note) between 1 and 5000),
        created_at timestamptz not null default now(),
        primary key (workspace_id, project_id, revision_number),
        unique (workspace_id, project_id, revision_number, document_digest),
        foreign key (workspace_id, project_id) references project
      );
      comment on table project_revision is 'append-only: what a project''s document was';
      comment on column project_revision.revision_number is 'counts from 1 within the project';
      comment on column project_revision.document is 'restoration-estimate document, at most 16 MiB of text';
      comment on column project_revision.document_digest is 'SHA-256 of its canonical JSON (RFC 8785), 64 hex digits';
      comment on column project_revision.format is 'from the document';
      comment on column project_revision.title is 'from the document, 1 to 200 characters';
      comment on column project_revision.author is 'who wrote it, 1 to 200 characters';
      comment on column project_revision.note is 'why, 1 to 5000 characters; null: not said';
      comment on column project_revision.created_at is 'server time';

      -- Checked at commit, because a project and its first revision point at each other.
      alter table project add foreign key (workspace_id, project_id, revision_number)
        references project_revision deferrable initially deferred;

      create function keep_project_in_order() returns trigger language plpgsql as $$
      begin
        if tg_op = 'INSERT' and (new.revision_number <> 1 or new.deleted_at is not null) then
          raise 'project % must begin live, at revision 1', new.project_id using errcode = 'check_violation';
        elsif tg_op = 'UPDATE' and (old.deleted_at is not null
          or (new.workspace_id, new.project_id, new.created_at) <> (old.workspace_id, old.project_id, old.created_at)
          or new.revision_number not in (old.revision_number, old.revision_number + 1)) then
          raise 'project % may only go to the next revision or be deleted, once', old.project_id
            using errcode = 'restrict_violation';
        end if;
        return new;
      end $$;
      create trigger in_order before insert or update on project
        for each row execute function keep_project_in_order();
      create trigger kept before delete or truncate on project
        for each statement execute function refuse_change();
      create trigger kept before update or delete or truncate on project_revision
        for each statement execute function refuse_change();
      -- Checked at commit, because the project is pointed at a revision after or before it is written.
      create function keep_revisions_in_order() returns trigger language plpgsql as $$
      begin
        if not exists (
          select from project
          where workspace_id = new.workspace_id and project_id = new.project_id
            and revision_number >= new.revision_number
        ) then
          raise 'project % does not point at revision % or a later one', new.project_id, new.revision_number
            using errcode = 'check_violation';
        end if;
        return null;
      end $$;
      create constraint trigger in_order after insert on project_revision
        deferrable initially deferred for each row execute function keep_revisions_in_order();
      -- ALWAYS: also in a session that replays another server's changes.
      alter table project enable always trigger in_order, enable always trigger kept;
      alter table project_revision enable always trigger kept, enable always trigger in_order;

      alter table project enable row level security, force row level security;
      create policy own_workspace on project
        using (workspace_id = current_workspace_id()) with check (workspace_id = current_workspace_id());
      alter table project_revision enable row level security, force row level security;
      create policy own_workspace on project_revision
        using (workspace_id = current_workspace_id()) with check (workspace_id = current_workspace_id());

      grant select, insert (workspace_id, project_id, revision_number), update (revision_number, deleted_at)
        on project to restoration_app;
      grant select, insert (workspace_id, project_id, revision_number, document, document_digest, author, note)
        on project_revision to restoration_app;
    `.execute(db);
  },
};
