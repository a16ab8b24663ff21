import { sql } from "kysely";
import type { EstimateResult } from "../../src/domain/estimate-result.ts";
import type { TestApp } from "./start-app.ts";

/** Does to a job's row what a worker would. */
export function fakeRunner({ database: { admin } }: Pick<TestApp, "database">) {
  const json = (value: unknown) => (value === undefined ? null : JSON.stringify(value));
  return {
    async begin(jobId: string) {
      await sql`update job set state = 'running', fence = fence + 1, attempts = attempts + 1, worker = 'fake',
        started_at = now(), leased_until = now() + interval '1 hour' where job_id = ${jobId}`.execute(admin);
    },
    async advance(jobId: string, progress: number, partial?: EstimateResult) {
      await sql`update job set progress = ${progress}, partial = ${json(partial)}
        where job_id = ${jobId}`.execute(admin);
    },
    async finish(jobId: string, result: EstimateResult) {
      await sql`update job set state = 'done', progress = 1, partial = null, result = ${json(result)}
        where job_id = ${jobId}`.execute(admin);
    },
    async finishEstimate(jobId: string, estimateId: string) {
      await sql`update job set state = 'done', progress = 1, partial = null, estimate_id = ${estimateId}
        where job_id = ${jobId}`.execute(admin);
    },
    async fail(jobId: string, problem: { code: string; detail: string }) {
      await sql`update job set state = 'failed', problem = ${json(problem)}
        where job_id = ${jobId}`.execute(admin);
    },
    async cancel(jobId: string) {
      await sql`update job set state = 'cancelled' where job_id = ${jobId} and cancel_requested`.execute(
        admin,
      );
    },
  };
}
