import { sql } from "kysely";
import type { Migration } from "kysely";

/**
 * An estimate is the result of one simulation of one stored revision, never changed. Its document is that
 * revision's, which cannot change either; the foreign key takes the digest along, so a result can only
 * stand beside the document it was computed from. What says how it was computed is read out of the result
 * by the database and thus cannot disagree with it.
 */
export const estimates: Migration = {
  async up(db) {
    await sql`
      create table estimate (
        workspace_id uuid not null,
        estimate_id uuid not null check (is_uuid_v7(estimate_id)),
        project_id uuid not null,
        revision_number integer not null,
        result json not null
          check (json_typeof(result) = 'object')
          check (octet_length(result::text) <= 16777216),
        document_digest text not null generated always as (result->>'documentDigest') stored,
        result_digest text not null generated always as (result->>'resultDigest') stored
          check (result_digest ~ '^[0-9a-f]{64}$'),
        engine_version text not null generated always as (result->'engine'->>'version') stored
          check (length(engine_version) between 1 and 100),
        seed bigint not null generated always as ((result->'engine'->>'seed')::bigint) stored
          check (seed between 0 and 9007199254740991),
        draws integer not null generated always as ((result->'engine'->>'draws')::integer) stored
          check (draws between 1 and 1000000),
        sampling text not null generated always as (result->'engine'->>'sampling') stored
          check (sampling in ('stratified', 'independent')),
        created_at timestamptz not null default now(),
        primary key (workspace_id, estimate_id),
        foreign key (workspace_id, project_id, revision_number, document_digest)
          references project_revision (workspace_id, project_id, revision_number, document_digest)
      );
      create index estimate_of_project on estimate (workspace_id, project_id, estimate_id);
      comment on table estimate is 'append-only: what the engine answered for one revision of a project';
      comment on column estimate.estimate_id is 'UUIDv7, made by the app';
      comment on column estimate.revision_number is 'the revision it was computed from';
      comment on column estimate.result is
        'money in the document''s currency, times in weeks, labour in hours; at most 16 MiB of text';
      comment on column estimate.document_digest is 'from the result; the revision''s own';
      comment on column estimate.result_digest is 'from the result: SHA-256 of its canonical JSON, 64 hex digits';
      comment on column estimate.engine_version is 'from the result';
      comment on column estimate.seed is 'from the result: an integer below 2^53';
      comment on column estimate.draws is 'from the result: draws computed';
      comment on column estimate.sampling is 'from the result';
      comment on column estimate.created_at is 'server time';

      create trigger kept before update or delete or truncate on estimate
        for each statement execute function refuse_change();
      alter table estimate enable always trigger kept;

      alter table estimate enable row level security, force row level security;
      create policy own_workspace on estimate
        using (workspace_id = current_workspace_id()) with check (workspace_id = current_workspace_id());
      grant select, insert (workspace_id, estimate_id, project_id, revision_number, result)
        on estimate to restoration_app;
    `.execute(db);
  },
};
