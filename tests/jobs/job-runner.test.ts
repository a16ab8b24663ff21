import { afterEach, beforeEach, expect, test } from "vitest";
import { startJobRunner } from "../../src/jobs/job-runner.ts";
import type { JobRunner } from "../../src/jobs/job-runner.ts";
import { createSimulationPool } from "../../src/jobs/simulation-pool.ts";
import type { SimulationPool } from "../../src/jobs/simulation-pool.ts";
import { simulate } from "../../src/simulation/simulate.ts";
import { openJobEvents } from "../../src/store/job-events.ts";
import { documentWith } from "../simulation/small-document.ts";
import { freshDatabase } from "../support/fresh-database.ts";
import type { FreshDatabase } from "../support/fresh-database.ts";
import { demo, openJobBench } from "./job-bench.ts";

const dyingWorker = new URL("./fixtures/dying-worker.mjs", import.meta.url);
const titled = (title: string) => documentWith({ title });
const long = { draws: 1_000_000 };

let database: FreshDatabase;
let bench: Awaited<ReturnType<typeof openJobBench>>;
const open: { close(): Promise<void> }[] = [];
beforeEach(async () => {
  database = await freshDatabase();
  bench = await openJobBench(database);
});
afterEach(async () => {
  for (const one of open.splice(0).reverse()) await one.close();
  await database.drop();
});

function pool(options: { threads?: number; worker?: URL } = {}): SimulationPool {
  const made = createSimulationPool({ threads: 1, ...options });
  open.push(made);
  return made;
}

function runner(means: { pool: SimulationPool; atOnce?: number; events?: boolean }): JobRunner {
  const events = means.events === false ? undefined : openJobEvents(database.server);
  if (events) open.push(events);
  const made = startJobRunner({ db: database.db, worker: "tested", ...means, events });
  open.push({ close: () => made.stop() });
  return made;
}

test.each([true, false])("a job gives what simulate() gives (woken by the database: %s)", async (events) => {
  runner({ pool: pool(), events });
  const options = { draws: 1_000, seed: 11 };
  const jobId = await bench.newSimulation(demo, options);
  expect((await bench.untilState(jobId, "done")).result).toEqual(simulate(demo, options));
});

test("jobs run at the same time, as many as were asked for", async () => {
  runner({ pool: pool({ threads: 2, worker: dyingWorker }), atOnce: 2 });
  const endless = await bench.newSimulation(titled("never end"), {});
  const others = [1, 2, 3].map((seed) => bench.newSimulation(titled("short"), { seed }));
  for (const jobId of await Promise.all(others)) await bench.untilState(jobId, "done");
  expect((await bench.find(endless)).state).toBe("running");
});

test("a running job is cancelled, and its thread takes the next", async () => {
  runner({ pool: pool() });
  const jobId = await bench.newSimulation(demo, long);
  await bench.untilState(jobId, "running");
  await bench.cancel(jobId);
  expect(await bench.untilState(jobId, "cancelled")).not.toHaveProperty("result");
  await bench.untilState(await bench.newSimulation(documentWith({}), {}), "done");
});

test("a document the engine refuses fails with the engine's words, at the first attempt", async () => {
  runner({ pool: pool() });
  const broken = documentWith({});
  broken.overheads.push({
    id: "freight",
    name: "Freight",
    cost: { kind: "percentiles", p10: 9, p50: 5, p90: 2 },
  });
  let thrown: { code?: string; message?: string } = {};
  try {
    simulate(broken);
  } catch (error) {
    thrown = error as Error;
  }
  const { code, message: detail } = thrown;
  const failed = await bench.untilState(await bench.newSimulation(broken, {}), "failed");
  expect(failed).toMatchObject({ attempts: 1, problem: { code, detail } });
});

test.each(["exit", "throw"])(
  "a document whose thread always comes to %s is given up, and the next is done",
  async (fate) => {
    runner({ pool: pool({ worker: dyingWorker }) });
    const poison = await bench.newSimulation(titled(fate), {});
    const next = await bench.newSimulation(titled("short"), { seed: 5 });
    const failed = await bench.untilState(poison, "failed");
    expect(failed).toMatchObject({ attempts: 3, problem: { code: "worker-lost" } });
    expect((await bench.untilState(next, "done")).result).toEqual({ seed: 5 });
  },
);

test("stop() hands a running job back at once, as good as new", async () => {
  const first = runner({ pool: pool() });
  const jobId = await bench.newSimulation(demo, long);
  await bench.untilState(jobId, "running");
  await first.stop();
  expect(await bench.find(jobId)).toMatchObject({ state: "waiting", attempts: 0 });
  await bench.cancel(jobId);
});

test("a result the database refuses fails the job, once", async () => {
  const huge = { ...simulate(documentWith({}), { draws: 32 }), documentDigest: "0".repeat(64) };
  const refused: SimulationPool = { ...pool(), runWithProgress: () => Promise.resolve(huge) };
  runner({ pool: refused });
  // An estimate's result must be of its revision's document.
  const { jobId } = await bench.newEstimate(documentWith({}), {});
  expect(await bench.untilState(jobId, "failed")).toMatchObject({
    attempts: 1,
    problem: { code: "result-refused" },
  });
});
