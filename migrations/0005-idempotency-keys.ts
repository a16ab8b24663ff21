import { sql } from "kysely";
import type { Migration } from "kysely";

/**
 * A client that did not hear the answer to a request sends it again with the same key. The key is written in the
 * transaction of the request's effect, so it stands here exactly when the effect took place.
 */
export const idempotencyKeys: Migration = {
  async up(db) {
    await sql`
      create table idempotency_key (
        workspace_id uuid not null references workspace,
        key text not null check (length(key) between 1 and 255),
        request_digest text not null check (request_digest ~ '^[0-9a-f]{64}$'),
        location text not null check (length(location) between 1 and 500),
        created_at timestamptz not null default now(),
        primary key (workspace_id, key)
      );
      comment on table idempotency_key is 'append-only: requests that clients may send again, and what they made';
      comment on column idempotency_key.key is 'the client''s, 1 to 255 characters';
      comment on column idempotency_key.request_digest is 'SHA-256 of method, path and body, 64 hex digits';
      comment on column idempotency_key.location is 'path of what the request made';
      comment on column idempotency_key.created_at is 'server time';

      create trigger kept before update or delete or truncate on idempotency_key
        for each statement execute function refuse_change();
      alter table idempotency_key enable always trigger kept;

      alter table idempotency_key enable row level security, force row level security;
      create policy own_workspace on idempotency_key
        using (workspace_id = current_workspace_id()) with check (workspace_id = current_workspace_id());
      grant select, insert (workspace_id, key, request_digest, location) on idempotency_key to restoration_app;
    `.execute(db);
  },
};
