import { sql } from "kysely";
import { v7 } from "uuid";
import { afterAll, beforeAll, expect, test } from "vitest";
import { openJobEvents } from "../../src/store/job-events.ts";
import type { JobEvents, JobListener } from "../../src/store/job-events.ts";
import { leaseJob } from "../../src/store/job-queue.ts";
import { createJob, requestCancel } from "../../src/store/job-store.ts";
import { freshDatabase } from "../support/fresh-database.ts";
import type { FreshDatabase } from "../support/fresh-database.ts";
import { newWorkspace, sampleDocument } from "./sample-estimate.ts";

let database: FreshDatabase;
let within: Awaited<ReturnType<typeof newWorkspace>>;
let workspaceId: string;
let events: JobEvents;
beforeAll(async () => {
  database = await freshDatabase();
  within = await newWorkspace(database);
  workspaceId = await within(({ id }) => Promise.resolve(id));
  events = openJobEvents(database.server);
  // Told without a job once the session listens.
  await called(events.onChanged);
});
afterAll(async () => {
  await events.close();
  await database.drop();
});

type Told = Parameters<JobListener>[0];

/** The next that is told there, while or after something is done. */
async function called(listen: JobEvents["onChanged"], act?: () => Promise<unknown>): Promise<Told> {
  let stop: () => void = () => undefined;
  const told = new Promise<Told>((resolve) => (stop = listen(resolve)));
  await act?.();
  return told.finally(stop);
}

async function newJob(): Promise<string> {
  const jobId = v7();
  const job = { jobId, kind: "simulation", document: sampleDocument(), options: {} } as const;
  await within((workspace) => createJob(workspace, job));
  return jobId;
}

test("a new job is told of: that one waits, and which has changed", async () => {
  let jobId = "";
  let waits = 0;
  const stop = events.onWaiting(() => (waits += 1));
  const told = await called(events.onChanged, async () => (jobId = await newJob()));
  expect(told).toEqual({ workspaceId, jobId });
  expect(waits).toBe(1);
  stop();
  await called(events.onChanged, newJob);
  expect(waits).toBe(1);
});

test("a running job that is to be cancelled is told of, a waiting one not", async () => {
  const waiting = await newJob();
  const leased = await leaseJob(database.db, "one", 60);
  const cancel = (jobId: string) => within((workspace) => requestCancel(workspace, jobId));
  const told = await called(events.onToCancel, () => cancel(leased!.jobId));
  expect(told).toEqual({ workspaceId, jobId: leased!.jobId });
  let tells = 0;
  const stop = events.onToCancel(() => (tells += 1));
  await called(events.onChanged, () => cancel(waiting));
  expect(tells).toBe(0);
  stop();
});

test("what a broken session may have missed is told, and the next one hears again", async () => {
  const told = await called(events.onChanged, () =>
    sql`select pg_terminate_backend(pid) from pg_stat_activity
      where application_name = 'job events' and datname = current_database()`.execute(database.admin),
  );
  expect(told).toBeUndefined();
  let jobId = "";
  expect(await called(events.onChanged, async () => (jobId = await newJob()))).toEqual({
    workspaceId,
    jobId,
  });
});

test("close() ends while no server answers", async () => {
  const deaf = openJobEvents({ host: "127.0.0.1", port: 1 });
  await deaf.close();
});
