import { setTimeout as sleep } from "node:timers/promises";
import { afterAll, beforeAll, expect, test } from "vitest";
import { simulate } from "../../src/simulation/simulate.ts";
import { listEstimates } from "../../src/store/estimate-store.ts";
import type { Job } from "../../src/store/job-store.ts";
import { freshDatabase } from "../support/fresh-database.ts";
import type { FreshDatabase } from "../support/fresh-database.ts";
import { demo, openJobBench } from "./job-bench.ts";
import { startProcess } from "./service-process.ts";
import type { ServiceProcess } from "./service-process.ts";
import { until } from "./until.ts";

const long = { draws: 1_000_000 };
const leaseMs = 5_000;

let database: FreshDatabase;
let bench: Awaited<ReturnType<typeof openJobBench>>;
const workers = new Set<ServiceProcess>();
beforeAll(async () => {
  database = await freshDatabase();
  bench = await openJobBench(database);
  await Promise.all([startWorker(), startWorker()]);
});
afterAll(async () => {
  for (const worker of workers) worker.signal("SIGKILL");
  await Promise.all([...workers].map(({ ended }) => ended));
  await database.drop();
});

async function startWorker(): Promise<void> {
  const { host, port, user, password = "", database: name } = database.server;
  const login = `${encodeURIComponent(user)}:${encodeURIComponent(password)}`;
  const url = `postgres://${login}@${encodeURIComponent(host)}:${port}/${name}`;
  const worker = await startProcess("src/worker.ts", { DATABASE_URL: url });
  workers.add(worker);
  void worker.ended.then(() => workers.delete(worker));
}

/** The lease a job is under, and the process that holds it. */
async function leaseOf(jobId: string): Promise<{ fence: number; holder: ServiceProcess } | undefined> {
  const row = await bench.within(({ trx }) =>
    trx.selectFrom("job").select(["fence", "worker"]).where("job_id", "=", jobId).executeTakeFirstOrThrow(),
  );
  const holder = [...workers].find(({ pid }) => row.worker?.endsWith(` ${pid}`));
  return holder && { fence: Number(row.fence), holder };
}

const untilLease = (jobId: string, fence: number, mostMs?: number) =>
  until(
    `lease ${fence}`,
    async () => {
      const lease = await leaseOf(jobId);
      return lease?.fence === fence && lease;
    },
    mostMs,
  );

/** Asks for an estimate and freezes its worker half way, with more draws where the machine was too fast. */
async function freezeHalfWay() {
  for (const draws of [40_000, 160_000, 640_000]) {
    const options = { draws, seed: 4 };
    const { jobId, projectId } = await bench.newEstimate(demo, options);
    await until("progress", async () => (await bench.find(jobId)).progress > 0);
    const lease = await leaseOf(jobId);
    lease?.holder.signal("SIGSTOP");
    // What it has sent already arrives meanwhile.
    await sleep(300);
    const { state } = await bench.find(jobId);
    if (lease?.fence === 1 && state === "running") return { jobId, projectId, options, frozen: lease.holder };
    lease?.holder.signal("SIGCONT");
  }
  throw new Error("every job was done before its worker could be stopped");
}

/** Every state of a job that can be told from the one before, until its end. */
async function watch(jobId: string): Promise<Job[]> {
  const seen: Job[] = [];
  await until(
    "end of the job",
    async () => {
      const job = await bench.find(jobId);
      if (job.revision !== seen.at(-1)?.revision) seen.push(job);
      return job.finishedAt !== undefined;
    },
    60_000,
  );
  return seen;
}

test("the job of a killed worker is taken over within 10 seconds and ends once, with the same digest", async () => {
  const { jobId, projectId, options, frozen } = await freezeHalfWay();
  const watched = watch(jobId);
  frozen.signal("SIGKILL");
  await frozen.ended;
  await untilLease(jobId, 2, 10_000);
  const seen = await watched;
  const job = seen.at(-1)!;
  const expected = simulate(demo, options);
  expect(job).toMatchObject({ state: "done", attempts: 2 });
  expect(job.result?.resultDigest).toBe(expected.resultDigest);
  const estimates = await bench.within((workspace) => listEstimates(workspace, projectId, { limit: 10 }));
  expect(estimates).toMatchObject([{ id: job.estimateId, resultDigest: expected.resultDigest }]);
  for (const [position, { progress, partial, revision }] of seen.entries()) {
    const before = seen[position - 1];
    if (before === undefined) continue;
    expect(progress).toBeGreaterThanOrEqual(before.progress);
    expect(revision).toBeGreaterThan(before.revision);
    if (partial) expect(partial.engine.draws).toBeGreaterThanOrEqual(before.partial?.engine.draws ?? 0);
  }
});

test("a worker that wakes after its lease was lost writes nothing, and goes on with other jobs", async () => {
  // One was killed before, unless this runs alone.
  if (workers.size === 1) await startWorker();
  const { jobId, projectId, frozen: sleeper } = await freezeHalfWay();
  const { holder: other } = await untilLease(jobId, 2);
  expect(other).not.toBe(sleeper);
  // Asleep too, the other cannot be who writes; what it has sent already arrives meanwhile.
  other.signal("SIGSTOP");
  await sleep(500);
  const { revision } = await bench.find(jobId);
  sleeper.signal("SIGCONT");
  const probe = await bench.newSimulation(demo, { draws: 100 });
  await until("another job of the sleeper", async () => {
    // Under the other's lease the job stays as it is; when that has run out it may be anyone's.
    if ((await leaseOf(jobId))?.fence === 2) expect((await bench.find(jobId)).revision).toBe(revision);
    return (await bench.find(probe)).state === "done";
  });
  other.signal("SIGCONT");
  await bench.untilState(jobId, "done");
  const estimates = await bench.within((workspace) => listEstimates(workspace, projectId, { limit: 10 }));
  expect(estimates).toHaveLength(1);
  other.signal("SIGTERM");
  expect(await other.ended).toBe(0);
});

test("a job that another process runs is cancelled at once", async () => {
  const jobId = await bench.newSimulation(demo, long);
  await until("progress", async () => (await bench.find(jobId)).progress > 0);
  await bench.cancel(jobId);
  // Within a second when the machine has time.
  await until("cancelled", async () => (await bench.find(jobId)).state === "cancelled", 5_000);
});

test("a worker that is told to stop hands its job back, and another has it before the lease runs out", async () => {
  await startWorker();
  const jobId = await bench.newSimulation(demo, long);
  const { holder } = await untilLease(jobId, 1);
  holder.signal("SIGTERM");
  const { holder: other } = await untilLease(jobId, 2, leaseMs - 500);
  expect(other).not.toBe(holder);
  expect(await holder.ended).toBe(0);
  expect(await bench.find(jobId)).toMatchObject({ state: "running", attempts: 1 });
  await bench.cancel(jobId);
  await bench.untilState(jobId, "cancelled");
});
