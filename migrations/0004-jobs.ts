import { sql } from "kysely";
import type { Migration } from "kysely";

/**
 * Simulations to be done, and the queue that hands them to workers.
 *
 * A worker takes a job for a few seconds (the lease) and renews it while it works. Every lease has a
 * higher number (the fence): who writes names its fence, so that a worker whose job was taken over
 * writes nothing any more.
 *
 * Workers serve every workspace, which row-level security forbids the app's role. What crosses workspaces
 * is therefore three functions that run as `restoration_queue`, a role nobody logs in as and the app's is
 * no member of. It may read only what the queue needs, so that not even a fault in them could give away a
 * document: `lease_job` tells which job in which workspace is whose turn, and its worker then reads the
 * document and writes the result within that workspace, under its policy.
 */
export const jobs: Migration = {
  async up(db) {
    const { rows } = await sql<{ schema: string }>`select current_schema() as schema`.execute(db);
    const schema = sql.id(rows[0]?.schema ?? "public");
    // Nothing a caller makes can stand in for what a function names: neither a schema nor a temporary table.
    const asQueue = sql`security definer set search_path = ${schema}, pg_temp`;
    await sql`
      do $$ begin
        create role restoration_queue nologin;
      exception when duplicate_object or unique_violation then null;
      end $$;

      do $$ begin
        if exists (
          select from pg_roles where rolname = 'restoration_queue' and (rolsuper or rolbypassrls or rolcanlogin)
        ) then
          raise 'role restoration_queue must not be a superuser, bypass row-level security or log in';
        end if;
        begin
          set local role restoration_queue;
          reset role;
        exception when insufficient_privilege then
          execute format('grant restoration_queue to %I', current_user);
        end;
        -- CREATE until its functions are its own.
        execute format('grant usage, create on schema %I to restoration_queue', current_schema());
      end $$;

      create table job (
        workspace_id uuid not null references workspace,
        job_id uuid not null check (is_uuid_v7(job_id)),
        kind text not null check (kind in ('simulation', 'estimate')),
        project_id uuid,
        project_revision integer,
        document json
          check (json_typeof(document) = 'object')
          check (octet_length(document::text) <= 16777216),
        options json not null
          check (json_typeof(options) = 'object')
          check (octet_length(options::text) <= 10000),
        state text not null default 'waiting'
          check (state in ('waiting', 'running', 'done', 'failed', 'cancelled')),
        progress double precision not null default 0 check (progress between 0 and 1),
        revision bigint not null default 1 check (revision >= 1),
        partial json
          check (json_typeof(partial) = 'object')
          check (octet_length(partial::text) <= 16777216),
        result json
          check (json_typeof(result) = 'object')
          check (octet_length(result::text) <= 16777216),
        estimate_id uuid,
        problem json
          check (json_typeof(problem->'code') = 'string' and json_typeof(problem->'detail') = 'string')
          check (octet_length(problem::text) <= 10000),
        cancel_requested boolean not null default false,
        fence bigint not null default 0 check (fence >= 0),
        leased_until timestamptz,
        worker text check (length(worker) between 1 and 200),
        attempts integer not null default 0 check (attempts between 0 and 100),
        created_at timestamptz not null default now(),
        started_at timestamptz,
        finished_at timestamptz,
        primary key (workspace_id, job_id),
        foreign key (workspace_id, project_id, project_revision) references project_revision,
        foreign key (workspace_id, estimate_id) references estimate,
        constraint simulation_has_document check ((kind = 'simulation') = (document is not null)),
        constraint estimate_has_revision check (
          (kind = 'estimate') = (project_id is not null) and (kind = 'estimate') = (project_revision is not null)),
        constraint running_is_leased check (
          (state = 'running') = (leased_until is not null) and (state = 'running') = (worker is not null)),
        constraint leased_has_started check ((fence > 0) = (started_at is not null)),
        constraint ended_has_finished check (
          (state in ('done', 'failed', 'cancelled')) = (finished_at is not null)),
        constraint failed_says_why check ((state = 'failed') = (problem is not null)),
        constraint done_has_answer check (
          (state = 'done' and kind = 'simulation') = (result is not null)
          and (state = 'done' and kind = 'estimate') = (estimate_id is not null)),
        constraint done_is_whole check (state <> 'done' or (progress = 1 and partial is null))
      );
      create index job_to_do on job (created_at, job_id) where state in ('waiting', 'running');
      create index job_finished on job (finished_at) where finished_at is not null;
      comment on table job is 'a simulation somebody asked for and does not wait for; forgotten a week after its end';
      comment on column job.job_id is 'UUIDv7, made by the app';
      comment on column job.kind is 'simulation: the result is kept here; estimate: it becomes an estimate of the project';
      comment on column job.project_revision is 'the revision an estimate is computed from';
      comment on column job.document is 'restoration-estimate document of a simulation, at most 16 MiB of text';
      comment on column job.options is 'draws, seed and the like, as asked';
      comment on column job.progress is 'share of the work done, 0 to 1; never falls';
      comment on column job.revision is 'goes up by one with every change that can be seen';
      comment on column job.partial is 'result of the draws made so far; kept when the job ends without a result';
      comment on column job.result is 'of a simulation that is done';
      comment on column job.estimate_id is 'of an estimate that is done';
      comment on column job.problem is 'why it failed: code for programs, detail for people';
      comment on column job.cancel_requested is 'whoever runs it stops when it next renews the lease';
      comment on column job.fence is 'leases so far: who writes must hold the last';
      comment on column job.leased_until is 'server time; when it has passed, another worker may take the job';
      comment on column job.worker is 'who runs it';
      comment on column job.attempts is 'leases so far less those handed back in order';
      comment on column job.created_at is 'server time';
      comment on column job.started_at is 'server time of the first lease';
      comment on column job.finished_at is 'server time it was done, failed or cancelled';

      create function keep_job_in_order() returns trigger language plpgsql as $$
      declare
        has_ended constant boolean := new.state in ('done', 'failed', 'cancelled');
      begin
        if tg_op = 'INSERT' then
          if new.state <> 'waiting' or new.fence <> 0 or new.revision <> 1 then
            raise 'job % must begin waiting', new.job_id using errcode = 'check_violation';
          end if;
        elsif old.finished_at is not null then
          raise 'job % has ended', new.job_id using errcode = 'restrict_violation';
        elsif new.fence < old.fence or new.progress < old.progress
          or (new.state = 'running' and new.fence = old.fence and old.state <> 'running')
          or (old.state = 'waiting' and new.state = 'done') then
          raise 'job % may only go forward, and run only under a new lease', new.job_id
            using errcode = 'restrict_violation';
        end if;
        if new.state <> 'running' then
          new.leased_until := null;
          new.worker := null;
        end if;
        if has_ended then
          new.finished_at := clock_timestamp();
        end if;
        if new.state = 'waiting' and (tg_op = 'INSERT' or old.state <> 'waiting') then
          perform pg_notify('job_waiting', '');
        end if;
        if new.state = 'running' and new.cancel_requested and not old.cancel_requested then
          perform pg_notify('job_to_cancel', new.workspace_id || '/' || new.job_id);
        end if;
        if tg_op = 'INSERT'
          or (new.state, new.progress, new.attempts, new.cancel_requested)
            is distinct from (old.state, old.progress, old.attempts, old.cancel_requested)
          or new.partial::text is distinct from old.partial::text then
          if tg_op = 'UPDATE' then
            new.revision := old.revision + 1;
          end if;
          perform pg_notify('job_changed', new.workspace_id || '/' || new.job_id);
        end if;
        return new;
      end $$;
      create trigger in_order before insert or update on job
        for each row execute function keep_job_in_order();
      -- What was asked for stays as it was asked.
      create trigger kept before truncate or update
        of workspace_id, job_id, kind, project_id, project_revision, document, options, created_at on job
        for each statement execute function refuse_change();
      create trigger kept_until_ended before delete on job
        for each row when (old.finished_at is null) execute function refuse_change();
      alter table job enable always trigger in_order, enable always trigger kept,
        enable always trigger kept_until_ended;

      alter table job enable row level security, force row level security;
      create policy own_workspace on job
        using (workspace_id = current_workspace_id()) with check (workspace_id = current_workspace_id());
      create policy every_workspace on job to restoration_queue using (true) with check (true);

      grant select,
        insert (workspace_id, job_id, kind, project_id, project_revision, document, options),
        update (state, progress, partial, result, estimate_id, problem, cancel_requested, leased_until, attempts)
        on job to restoration_app;
      grant select (workspace_id, job_id, state, cancel_requested, fence, leased_until, attempts, created_at,
          started_at, finished_at),
        update (state, problem, fence, leased_until, worker, attempts, started_at),
        delete on job to restoration_queue;

      create function lease_job(by_worker text, lease_seconds integer)
        returns table (leased_workspace_id uuid, leased_job_id uuid, leased_fence bigint)
        language plpgsql ${asQueue} as $$
      declare
        most_attempts constant integer := 3;
        candidate record;
      begin
        if lease_seconds not between 1 and 60 then
          raise 'a lease lasts 1 to 60 seconds, not %', lease_seconds using errcode = 'invalid_parameter_value';
        end if;
        loop
          select workspace_id, job_id, attempts, cancel_requested into candidate
            from job
            where state in ('waiting', 'running') and (state = 'waiting' or leased_until < clock_timestamp())
            order by created_at, job_id limit 1 for update skip locked;
          exit when not found;
          if candidate.cancel_requested then
            update job set state = 'cancelled'
              where workspace_id = candidate.workspace_id and job_id = candidate.job_id;
          elsif candidate.attempts >= most_attempts then
            update job set state = 'failed', problem = json_build_object('code', 'worker-lost', 'detail', format(
                'The simulation was given up after %s attempts: each time the thread or process that ran it '
                'ended, most likely for want of memory. Try fewer draws.', candidate.attempts))
              where workspace_id = candidate.workspace_id and job_id = candidate.job_id;
          else
            return query update job set state = 'running', fence = fence + 1, attempts = attempts + 1,
                worker = by_worker, started_at = coalesce(started_at, clock_timestamp()),
                leased_until = clock_timestamp() + make_interval(secs => lease_seconds)
              where workspace_id = candidate.workspace_id and job_id = candidate.job_id
              returning workspace_id, job_id, fence;
            return;
          end if;
        end loop;
      end $$;
      comment on function lease_job(text, integer) is
        'gives a worker the oldest job that waits or whose worker was lost, without its content';

      create function count_waiting_jobs() returns bigint language sql stable ${asQueue}
        as $$ select count(*) from job where state = 'waiting' $$;
      comment on function count_waiting_jobs() is 'in all workspaces, since they share the workers';

      create function forget_old_jobs() returns bigint language sql ${asQueue} as $$
        with forgotten as (delete from job where finished_at < now() - interval '7 days' returning 1)
        select count(*) from forgotten
      $$;
      comment on function forget_old_jobs() is 'removes what ended a week ago; how many that were';

      alter function lease_job(text, integer) owner to restoration_queue;
      alter function count_waiting_jobs() owner to restoration_queue;
      alter function forget_old_jobs() owner to restoration_queue;
      revoke create on schema ${schema} from restoration_queue;
      revoke execute on function lease_job(text, integer), count_waiting_jobs(), forget_old_jobs() from public;
      grant execute on function lease_job(text, integer), count_waiting_jobs(), forget_old_jobs()
        to restoration_app;
    `.execute(db);
  },
};
