import { chmod, mkdtemp, rm } from "node:fs/promises";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { v7 } from "uuid";
import { afterAll, beforeAll, expect, test } from "vitest";
import { connectDatabase, defaultWorkspaceId } from "../../src/store/connect.ts";
import type { ConnectedDatabase } from "../../src/store/connect.ts";
import { inWorkspace } from "../../src/store/in-workspace.ts";
import { createJob, findJob, requestCancel } from "../../src/store/job-store.ts";
import type { Job } from "../../src/store/job-store.ts";
import { demo } from "./job-bench.ts";
import { startProcess } from "./service-process.ts";
import { until } from "./until.ts";

let folder: string;
let env: Record<string, string>;
let database: ConnectedDatabase;
beforeAll(async () => {
  folder = await mkdtemp(join(tmpdir(), "restoration-worker-"));
  // Under root another user runs the server, and has to get to its data.
  await chmod(folder, 0o711);
  env = { DATA_FOLDER: join(folder, "postgres") };
  database = await connectDatabase({ dataFolder: join(folder, "postgres") });
});
afterAll(async () => {
  await database.close();
  await rm(folder, { recursive: true, force: true });
});

async function newJob(draws: number): Promise<string> {
  const jobId = v7();
  const job = { jobId, kind: "simulation", document: demo, options: { draws } } as const;
  await inWorkspace(database.db, defaultWorkspaceId, (workspace) => createJob(workspace, job));
  return jobId;
}

const untilState = (jobId: string, state: Job["state"]) =>
  until(state, async () => {
    const job = await inWorkspace(database.db, defaultWorkspaceId, (workspace) => findJob(workspace, jobId));
    return job?.state === state && job;
  });

test("npm run worker finds the database of npm start by itself, and does its jobs", async () => {
  const [server, worker] = await Promise.all([
    startProcess("src/server.ts", { ...env, JOB_THREADS: "0" }),
    startProcess("src/worker.ts", env),
  ]);
  await untilState(await newJob(1_000), "done");
  server.signal("SIGINT");
  expect(await server.ended).toBe(0);
  await untilState(await newJob(1_000), "done");
  worker.signal("SIGINT");
  expect(await worker.ended).toBe(0);
});

test("npm start does jobs by itself, and hands one back when it stops", async () => {
  const server = await startProcess("src/server.ts", env);
  await untilState(await newJob(1_000), "done");
  const jobId = await newJob(1_000_000);
  await untilState(jobId, "running");
  server.signal("SIGTERM");
  expect(await server.ended).toBe(0);
  expect(await untilState(jobId, "waiting")).toMatchObject({ attempts: 0 });
  await inWorkspace(database.db, defaultWorkspaceId, (workspace) => requestCancel(workspace, jobId));
});
