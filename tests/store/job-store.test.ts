import { sql } from "kysely";
import { v7 } from "uuid";
import { afterEach, beforeEach, expect, test } from "vitest";
import type { EstimateResult } from "../../src/domain/estimate-result.ts";
import { getEstimate, listEstimates } from "../../src/store/estimate-store.ts";
import { finishJob, readTask, renewLease } from "../../src/store/job-lease.ts";
import { forgetOldJobs, leaseJob } from "../../src/store/job-queue.ts";
import type { LeasedJob } from "../../src/store/job-queue.ts";
import { countWaiting, createJob, findJob, listJobs, requestCancel } from "../../src/store/job-store.ts";
import { deleteProject } from "../../src/store/project-store.ts";
import { freshDatabase } from "../support/fresh-database.ts";
import type { FreshDatabase } from "../support/fresh-database.ts";
import { newProject, newWorkspace, sampleDocument, sampleResult, sampleRevision } from "./sample-estimate.ts";

let database: FreshDatabase;
let within: Awaited<ReturnType<typeof newWorkspace>>;
beforeEach(async () => {
  database = await freshDatabase();
  within = await newWorkspace(database);
});
afterEach(() => database.drop());

const document = sampleDocument("Merle 98");
const options = { draws: 500, seed: 7 };
const revision = sampleRevision();
const result = sampleResult(revision.documentDigest);
const withDraws = (draws: number): EstimateResult => ({ ...result, engine: { ...result.engine, draws } });

async function newJob(): Promise<string> {
  const jobId = v7();
  await within((workspace) => createJob(workspace, { jobId, kind: "simulation", document, options }));
  return jobId;
}

async function newEstimateJob(): Promise<{ jobId: string; projectId: string }> {
  return within(async (workspace) => {
    const [jobId, projectId] = [v7(), await newProject(workspace, revision)];
    await createJob(workspace, { jobId, kind: "estimate", projectId, revision: 1, options });
    return { jobId, projectId };
  });
}

const find = (jobId: string) => within((workspace) => findJob(workspace, jobId));

async function lease(worker = "one"): Promise<LeasedJob> {
  const leased = await leaseJob(database.db, worker, 60);
  if (leased === undefined) throw new Error("there was nothing to lease");
  return leased;
}

const renew = (leased: LeasedJob, progress: number, partial?: EstimateResult) =>
  renewLease(database.db, leased, 60, { progress, partial });

const finish = (leased: LeasedJob) =>
  finishJob(database.db, leased, { state: "done", result, estimateId: v7() });

/** As if the worker had said nothing for long. */
function runOut({ jobId }: { jobId: string }): Promise<unknown> {
  const leased_until = new Date(0);
  return within(({ trx }) =>
    trx.updateTable("job").set({ leased_until }).where("job_id", "=", jobId).execute(),
  );
}

test("createJob() puts a simulation into the queue as it was asked", async () => {
  const jobId = await newJob();
  const job = await find(jobId);
  expect(job).toEqual({
    jobId,
    kind: "simulation",
    options,
    state: "waiting",
    progress: 0,
    revision: 1,
    cancelRequested: false,
    attempts: 0,
    createdAt: job?.createdAt,
  });
  expect(await countWaiting(database.db)).toBe(1);
});

test("createJob() makes estimates of revisions there are only", async () => {
  const unknown = { kind: "estimate", projectId: v7(), revision: 1, options } as const;
  await expect(
    within((workspace) => createJob(workspace, { jobId: v7(), ...unknown })),
  ).rejects.toMatchObject({ code: "23503" });
});

test("listJobs() gives the newest first, page by page", async () => {
  const ids = [await newJob(), await newJob(), await newJob()];
  const page = (after?: string) => within((workspace) => listJobs(workspace, { limit: 2, after }));
  expect((await page()).map(({ jobId }) => jobId)).toEqual([ids[2], ids[1]]);
  expect((await page(ids[1])).map(({ jobId }) => jobId)).toEqual([ids[0]]);
});

test("leaseJob() hands out each job once, the oldest first", async () => {
  const ids = [await newJob(), await newJob(), await newJob()];
  expect((await lease()).jobId).toBe(ids[0]);
  const rest = await Promise.all([1, 2, 3, 4].map(() => leaseJob(database.db, "any", 60)));
  const given = rest.flatMap((leased) => leased?.jobId ?? []);
  // Which of them sees what another has locked is chance; none is given twice.
  for (let look = 0; given.length < 2 && look < 2; look++) given.push((await lease()).jobId);
  expect(given.sort()).toEqual(ids.slice(1));
  expect(await leaseJob(database.db, "any", 60)).toBeUndefined();
  expect(await find(ids[0]!)).toMatchObject({
    state: "running",
    attempts: 1,
    startedAt: expect.any(Date) as Date,
  });
});

test("readTask() gives the document and options that were asked for", async () => {
  const jobId = await newJob();
  const leased = await lease();
  expect(leased.jobId).toBe(jobId);
  expect(await readTask(database.db, leased)).toEqual({ document, options });
  const { projectId } = await newEstimateJob();
  const second = await lease();
  // Deleting hides a project; what was asked of it before stays readable for the job.
  await within((workspace) => deleteProject(workspace, projectId));
  expect(await readTask(database.db, second)).toEqual({ document: revision.document, options });
});

test("renewLease() stores progress and partial results that only grow", async () => {
  const jobId = await newJob();
  const leased = await lease();
  const seen = async () => {
    const job = await find(jobId);
    return [job?.progress, job?.partial?.engine.draws];
  };
  expect(await renew(leased, 0.25, withDraws(100))).toBe("held");
  expect(await seen()).toEqual([0.25, 100]);
  await runOut({ jobId });
  // The next worker begins anew, and shows it only once it is further.
  const second = await lease("two");
  await renew(second, 0.125, withDraws(50));
  expect(await seen()).toEqual([0.25, 100]);
  await renew(second, 0.5, withDraws(200));
  expect(await seen()).toEqual([0.5, 200]);
});

test("a job's revision goes up with what can be seen, not with a mere renewal", async () => {
  const jobId = await newJob();
  const leased = await lease();
  const revisions: (number | undefined)[] = [];
  for (const progress of [0.1, 0.1, 0.2]) {
    await renew(leased, progress);
    revisions.push((await find(jobId))?.revision);
  }
  expect(revisions).toEqual([3, 3, 4]);
});

test("finishJob() keeps a simulation's result with the job", async () => {
  const jobId = await newJob();
  const leased = await lease();
  await renew(leased, 0.5, withDraws(100));
  expect(await finish(leased)).toBe(true);
  const job = await find(jobId);
  expect(job).toMatchObject({ state: "done", progress: 1, result, finishedAt: expect.any(Date) as Date });
  expect(job).not.toHaveProperty("partial");
});

test("finishJob() stores an estimate in the same transaction", async () => {
  const { jobId, projectId } = await newEstimateJob();
  const leased = await lease();
  const estimateId = v7();
  // An estimate the database refuses leaves the job as it was.
  const foreign = sampleResult("0".repeat(64));
  await expect(
    finishJob(database.db, leased, { state: "done", result: foreign, estimateId }),
  ).rejects.toMatchObject({ code: "23503" });
  expect((await find(jobId))?.state).toBe("running");
  expect(await finishJob(database.db, leased, { state: "done", result, estimateId })).toBe(true);
  expect(await find(jobId)).toMatchObject({
    state: "done",
    estimateId,
    projectId,
    projectRevision: 1,
    result,
  });
  const stored = await within((workspace) => getEstimate(workspace, projectId, estimateId));
  expect(stored?.result).toEqual(result);
});

test("finishJob() fails an estimate whose project was deleted meanwhile", async () => {
  const { jobId, projectId } = await newEstimateJob();
  const leased = await lease();
  await within((workspace) => deleteProject(workspace, projectId));
  expect(await finish(leased)).toBe(true);
  expect(await find(jobId)).toMatchObject({ state: "failed", problem: { code: "project-deleted" } });
});

test("a worker whose lease was taken over writes nothing any more", async () => {
  const { jobId, projectId } = await newEstimateJob();
  const old = await lease("old");
  await runOut({ jobId });
  const young = await lease("young");
  expect(young).toEqual({ ...old, fence: "2" });
  const before = await find(jobId);
  expect(await readTask(database.db, old)).toBeUndefined();
  expect(await renew(old, 0.9, withDraws(100))).toBe("lost");
  expect(await finish(old)).toBe(false);
  expect(await find(jobId)).toEqual(before);
  expect(await finish(young)).toBe(true);
  expect(await finish(old)).toBe(false);
  expect(await finish(young)).toBe(false);
  expect(await within((workspace) => listEstimates(workspace, projectId, { limit: 10 }))).toHaveLength(1);
});

test("requestCancel() ends a waiting job at once, and has its worker stop one that runs", async () => {
  const [running, waiting] = [await newJob(), await newJob()];
  const leased = await lease();
  const cancel = (jobId: string) => within((workspace) => requestCancel(workspace, jobId));
  expect(await cancel(waiting)).toMatchObject({ state: "cancelled", finishedAt: expect.any(Date) as Date });
  expect(await cancel(running)).toMatchObject({ state: "running", cancelRequested: true });
  expect(await renew(leased, 0.5, withDraws(100))).toBe("cancelled");
  expect(await finishJob(database.db, leased, { state: "cancelled" })).toBe(true);
  const ended = await find(running);
  expect(ended).toMatchObject({ state: "cancelled", partial: withDraws(100) });
  expect(await cancel(running)).toEqual(ended);
  expect(await cancel(v7())).toBeUndefined();
});

test("a job to be cancelled whose worker was lost is cancelled", async () => {
  const [first, second] = [await newJob(), await newJob()];
  await lease();
  await lease();
  await within((workspace) => requestCancel(workspace, first));
  await runOut({ jobId: first });
  expect(await leaseJob(database.db, "next", 60)).toBeUndefined();
  expect(await find(first)).toMatchObject({ state: "cancelled", attempts: 1 });
  await runOut({ jobId: second });
  expect(await within((workspace) => requestCancel(workspace, second))).toMatchObject({ state: "cancelled" });
});

test("leaseJob() gives a job up after three workers were lost over it", async () => {
  const [poison, next] = [await newJob(), await newJob()];
  const back = { state: "waiting", blameless: false } as const;
  expect(await finishJob(database.db, await lease(), back)).toBe(true);
  for (let attempt = 2; attempt <= 3; attempt++) {
    const leased = await lease();
    expect(leased.jobId).toBe(poison);
    await runOut({ jobId: poison });
  }
  expect((await lease()).jobId).toBe(next);
  const job = await find(poison);
  expect(job).toMatchObject({ state: "failed", attempts: 3, problem: { code: "worker-lost" } });
  expect(job?.problem?.detail).toMatch(/^The simulation was given up after 3 attempts: .* fewer draws\.$/);
});

test("a job handed back in order loses no attempt and is first in the queue", async () => {
  const jobId = await newJob();
  await newJob();
  for (let turn = 0; turn < 5; turn++) {
    const leased = await lease();
    expect(leased).toMatchObject({ jobId, fence: String(turn + 1) });
    await finishJob(database.db, leased, { state: "waiting", blameless: true });
  }
  expect(await find(jobId)).toMatchObject({ state: "waiting", attempts: 0 });
});

test("forgetOldJobs() removes what ended a week ago, and nothing that is wanted", async () => {
  const [old, recent, running] = [await newJob(), await newJob(), await newJob()];
  await finish(await lease());
  await finish(await lease());
  await lease();
  await asOwner(
    "alter table job disable trigger in_order",
    `update job set finished_at = now() - interval '8 days' where job_id = '${old}'`,
    `update job set finished_at = now() - interval '6 days' where job_id = '${recent}'`,
    "alter table job enable always trigger in_order",
  );
  expect(await forgetOldJobs(database.db)).toBe(1);
  const left = await within((workspace) => listJobs(workspace, { limit: 10 }));
  expect(left.map(({ jobId }) => jobId)).toEqual([running, recent]);
});

/** Does something as the owner of the tables, whom no grant holds, in the test's workspace. */
function asOwner(...statements: string[]): Promise<unknown> {
  return within(({ id }) =>
    database.admin.transaction().execute(async (trx) => {
      await sql`select set_config('app.workspace_id', ${id}, true)`.execute(trx);
      for (const statement of statements) await sql.raw(statement).execute(trx);
    }),
  );
}

const waiting = newJob;
const halfWay = async () => {
  const jobId = await newJob();
  await renew(await lease(), 0.5);
  return jobId;
};
const ended = async () => {
  const jobId = await newJob();
  await finish(await lease());
  return jobId;
};

test.each<[string, () => Promise<string>, string, string]>([
  ["goes back", halfWay, "update job set progress = 0.4", "23001"],
  ["takes an old lease", halfWay, "update job set fence = 0", "23001"],
  ["makes impossible progress", halfWay, "update job set progress = 'NaN'", "23514"],
  ["is done without having run", waiting, "update job set state = 'done'", "23001"],
  ["runs without a new lease", waiting, "update job set state = 'running'", "23001"],
  ["runs for nobody", waiting, "update job set state = 'running', fence = 1", "23514"],
  ["is done without a result", halfWay, "update job set state = 'done', progress = 1", "23514"],
  ["fails without saying why", halfWay, "update job set state = 'failed'", "23514"],
  ["is asked for something else later", waiting, "update job set options = '{}'", "23001"],
  ["is removed before its end", halfWay, "delete from job", "23001"],
  ["goes on after its end", ended, "update job set state = 'waiting', progress = 1", "23001"],
])("no job %s, whoever tries", async (_, prepare, statement, code) => {
  const jobId = await prepare();
  await expect(asOwner(`${statement} where job_id = '${jobId}'`)).rejects.toMatchObject({ code });
});
