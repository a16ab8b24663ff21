import { sql } from "kysely";
import { v7 } from "uuid";
import { afterAll, beforeAll, describe, expect, test } from "vitest";
import { simulate } from "../../src/simulation/simulate.ts";
import { inWorkspace } from "../../src/store/in-workspace.ts";
import { insertEstimate } from "../../src/store/estimate-store.ts";
import { fakeRunner } from "./fake-runner.ts";
import { readExample } from "./read-example.ts";
import { newProject, secondApp, send, startApp } from "./start-app.ts";
import type { TestApp } from "./start-app.ts";

const document = readExample("examples/moped-mid-way");
const options = { draws: 640, seed: 3 };
const result = JSON.parse(JSON.stringify(simulate(document, options)));
const asynchronous = { prefer: "respond-async" };
const uuid = /^[0-9a-f]{8}-[0-9a-f]{4}-7[0-9a-f]{3}-[0-9a-f]{4}-[0-9a-f]{12}$/;

let service: TestApp;
let runner: ReturnType<typeof fakeRunner>;
beforeAll(async () => {
  service = await startApp({
    predictor: { predictedMs: (_, { draws }) => Number(draws ?? 0) },
  });
  runner = fakeRunner(service);
});
afterAll(() => service.stop());

const simulation = (
  headers: Record<string, string> = asynchronous,
  body: object = { document, ...options },
) => send(service.app, "POST", "/v1/simulations", body, headers);
const read = async (address: string) => (await service.app.inject(address)).json();
const cancel = (address: string) => service.app.inject({ method: "POST", url: `${address}/cancel` });

async function newJob(): Promise<{ id: string; address: string }> {
  const response = await simulation();
  if (response.statusCode !== 202) throw new Error(response.body);
  return { id: response.json().id, address: String(response.headers.location) };
}

async function jobCount(): Promise<number> {
  const { rows } = await sql<{ count: number }>`select count(*)::int as count from job`.execute(
    service.database.admin,
  );
  return rows[0]!.count;
}

describe("POST /v1/simulations", () => {
  test("answers with a job when the client prefers it", async () => {
    const response = await simulation();
    expect(response.statusCode).toBe(202);
    expect(response.headers["preference-applied"]).toBe("respond-async");
    const job = response.json();
    expect(response.headers.location).toBe(`/v1/jobs/${job.id}`);
    expect(job).toEqual({
      id: expect.stringMatching(uuid),
      kind: "simulation",
      options,
      state: "waiting",
      progress: 0,
      revision: expect.any(Number),
      cancelRequested: false,
      attempts: 0,
      createdAt: expect.stringMatching(/Z$/),
      links: { self: `/v1/jobs/${job.id}`, events: `/v1/jobs/${job.id}/events` },
    });
    expect(await read(`/v1/jobs/${job.id}`)).toEqual(job);
  });

  test.each([
    [300, 200],
    [301, 202],
  ])("predicted to take %i ms is answered %i unasked", async (draws, status) => {
    const response = await simulation({}, { document, draws });
    expect(response.statusCode).toBe(status);
    expect(response.headers).not.toHaveProperty("preference-applied");
    expect("id" in response.json()).toBe(status === 202);
  });

  test("is checked before it becomes a job", async () => {
    const before = await jobCount();
    expect((await simulation(asynchronous, { document, draws: 1 })).statusCode).toBe(422);
    expect(await jobCount()).toBe(before);
  });

  test("waits for the result as long as the client would", async () => {
    const before = await jobCount();
    const response = simulation({ prefer: "wait=20" });
    const id = await newestJob(before);
    await runner.begin(id);
    await runner.advance(id, 0.5);
    await runner.finish(id, result);
    expect((await response).statusCode).toBe(200);
    expect((await response).json()).toEqual(result);
  });

  test("answers with the job when the result does not come in that time", async () => {
    const response = await simulation({ prefer: "respond-async, wait=1" });
    expect(response.statusCode).toBe(202);
    expect(response.headers["preference-applied"]).toBe("respond-async, wait=1");
  });

  test("answers with the job when it fails in that time", async () => {
    const before = await jobCount();
    const response = simulation({ prefer: "wait=20" });
    const id = await newestJob(before);
    await runner.begin(id);
    await runner.fail(id, { code: "column-too-wide", detail: "9000 columns: at most 8000" });
    expect((await response).statusCode).toBe(202);
    expect((await response).json()).toMatchObject({ id, state: "failed" });
  });
});

/** The id of the one job made since there were so many. */
async function newestJob(before: number): Promise<string> {
  while ((await jobCount()) === before) await new Promise((resolve) => setTimeout(resolve, 10));
  return (await read("/v1/jobs?limit=1")).items[0].id;
}

describe("POST /v1/projects/{projectId}/estimates", () => {
  let project: string;
  beforeAll(async () => (project = await newProject(service.app, document)));
  const projectId = () => project.split("/").at(-1)!;
  const estimate = (headers: Record<string, string>) =>
    send(service.app, "POST", `${project}/estimates`, options, headers);

  async function keep(jobId: string): Promise<string> {
    const id = v7();
    await inWorkspace(service.database.db, service.workspaceId, (workspace) =>
      insertEstimate(workspace, { id, projectId: projectId(), revision: 1, result }),
    );
    await runner.begin(jobId);
    await runner.finishEstimate(jobId, id);
    return id;
  }

  test("answers with a job that leads to the estimate", async () => {
    const response = await estimate(asynchronous);
    expect(response.statusCode).toBe(202);
    const { id } = response.json();
    expect(response.json()).toMatchObject({
      kind: "estimate",
      projectId: projectId(),
      projectRevision: 1,
      options,
    });
    expect((await read(`${project}/estimates`)).items).toEqual([]);
    const estimateId = await keep(id);
    const job = await read(`/v1/jobs/${id}`);
    expect(job).toMatchObject({
      state: "done",
      estimateId,
      links: { estimate: `${project}/estimates/${estimateId}` },
    });
    expect(await read(job.links.estimate)).toMatchObject({ id: estimateId, document, result });
  });

  test("answers with the estimate when it is kept in the time the client would wait", async () => {
    const before = await jobCount();
    const response = estimate({ prefer: "wait=20" });
    const estimateId = await keep(await newestJob(before));
    expect((await response).statusCode).toBe(201);
    expect((await response).headers.location).toBe(`${project}/estimates/${estimateId}`);
    expect((await response).json()).toMatchObject({ id: estimateId, result });
  });

  test("of no project or revision makes no job", async () => {
    const before = await jobCount();
    for (const [url, body] of [
      [`/v1/projects/${v7()}/estimates`, options],
      [`${project}/estimates`, { revision: 9 }],
    ] as const) {
      expect((await send(service.app, "POST", url, body, asynchronous)).statusCode).toBe(404);
    }
    expect(await jobCount()).toBe(before);
  });
});

describe("GET /v1/jobs/{jobId}", () => {
  test("shows progress, the figures so far, and in the end the result", async () => {
    const { id, address } = await newJob();
    await runner.begin(id);
    await runner.advance(id, 0.25, result);
    const running = await read(address);
    expect(running).toMatchObject({ state: "running", progress: 0.25, attempts: 1, partial: result });
    expect(running).not.toHaveProperty("result");
    await runner.finish(id, result);
    const done = await read(address);
    expect(done).toMatchObject({ state: "done", progress: 1, result });
    expect(done.finishedAt >= done.startedAt).toBe(true);
    expect(done.revision).toBeGreaterThan(running.revision);
  });

  test("says why a job failed as problem details", async () => {
    const { id, address } = await newJob();
    await runner.begin(id);
    await runner.fail(id, { code: "worker-lost", detail: "the simulation did not finish" });
    expect((await read(address)).problem).toEqual({
      type: "/problems/simulation-lost",
      title: "The simulation did not finish",
      status: 503,
      detail: "the simulation did not finish",
    });
  });

  test("is 304 for a client that knows the job as it is", async () => {
    const { id, address } = await newJob();
    const { etag } = (await service.app.inject(address)).headers;
    const again = () => service.app.inject({ url: address, headers: { "if-none-match": String(etag) } });
    expect((await again()).statusCode).toBe(304);
    await runner.begin(id);
    expect((await again()).statusCode).toBe(200);
  });
});

describe("GET /v1/jobs", () => {
  test("gives every job once, newest first, page by page and without its figures", async () => {
    const { app } = await secondApp(service);
    const made: string[] = [];
    for (const seed of [1, 2, 3]) {
      const response = await send(
        app,
        "POST",
        "/v1/simulations",
        { document, draws: 64, seed },
        asynchronous,
      );
      made.unshift(response.json().id);
    }
    await runner.begin(made[0]!);
    await runner.finish(made[0]!, result);
    const first = (await app.inject("/v1/jobs?limit=2")).json();
    const rest = (await app.inject(`/v1/jobs?limit=2&cursor=${first.nextCursor}`)).json();
    expect(first.items).toHaveLength(2);
    expect(rest).not.toHaveProperty("nextCursor");
    expect([...first.items, ...rest.items].map(({ id }: { id: string }) => id)).toEqual(made);
    expect(first.items[0]).toMatchObject({ state: "done", links: { self: `/v1/jobs/${made[0]}` } });
    expect(first.items[0]).not.toHaveProperty("result");
    await app.close();
  });

  test("refuses a cursor of another list", async () => {
    const cursor = Buffer.from("3").toString("base64url");
    expect((await service.app.inject(`/v1/jobs?cursor=${cursor}`)).json().faults).toMatchObject([
      { pointer: "/query/cursor" },
    ]);
  });
});

describe("POST /v1/jobs/{jobId}/cancel", () => {
  test("ends a job that waits at once", async () => {
    const { address } = await newJob();
    const response = await cancel(address);
    expect(response.statusCode).toBe(200);
    expect(response.json()).toMatchObject({ state: "cancelled" });
    expect(await read(address)).toEqual(response.json());
  });

  test("tells a running job to end", async () => {
    const { id, address } = await newJob();
    await runner.begin(id);
    const response = await cancel(address);
    expect(response.statusCode).toBe(202);
    expect(response.json()).toMatchObject({ state: "running", cancelRequested: true });
    await runner.cancel(id);
    expect(await read(address)).toMatchObject({ state: "cancelled" });
  });

  test("leaves a job that has ended as it is", async () => {
    const { id, address } = await newJob();
    await runner.begin(id);
    await runner.finish(id, result);
    const before = await read(address);
    const response = await cancel(address);
    expect(response.statusCode).toBe(200);
    expect(response.json()).toEqual(before);
  });
});

describe("a job of another workspace, or of none", () => {
  test("is answered 404, whatever is asked of it", async () => {
    const { address } = await newJob();
    const { app } = await secondApp(service);
    const asked = [
      ["GET", ""],
      ["GET", "/events"],
      ["POST", "/cancel"],
    ] as const;
    for (const [method, path] of asked) {
      for (const url of [address + path, `/v1/jobs/${v7()}${path}`]) {
        const response = await app.inject({ method, url });
        expect(response.statusCode, url).toBe(404);
        expect(response.json()).toMatchObject({ type: "/problems/not-found" });
      }
      const response = await app.inject({ method, url: `/v1/jobs/7${path}` });
      expect(response.statusCode).toBe(400);
      expect(response.json().faults).toMatchObject([{ pointer: "/path/jobId" }]);
    }
    expect((await app.inject("/v1/jobs")).json()).toEqual({ items: [] });
    expect(await read(address)).toMatchObject({ state: "waiting" });
    await app.close();
  });
});

describe("a service with too many jobs waiting", () => {
  test("refuses another before anything is stored, and takes it when there is room", async () => {
    const full = await startApp({ mostJobsWaiting: 2 });
    const project = await newProject(full.app, document);
    const post = (url: string, body: object) => send(full.app, "POST", url, body, asynchronous);
    const jobs = async () => (await full.app.inject("/v1/jobs")).json().items;
    const taken = [await post("/v1/simulations", { document }), await post(`${project}/estimates`, {})];
    expect(taken.map(({ statusCode }) => statusCode)).toEqual([202, 202]);
    for (const [url, body] of [
      ["/v1/simulations", { document }],
      [`${project}/estimates`, {}],
    ] as const) {
      const refused = await post(url, body);
      expect(refused.statusCode).toBe(503);
      expect(refused.json()).toMatchObject({
        type: "/problems/overloaded",
        detail: expect.stringContaining("2 jobs wait"),
      });
      expect(Number(refused.headers["retry-after"])).toBeGreaterThan(0);
    }
    expect(await jobs()).toHaveLength(2);
    // What needs no job is still answered.
    expect((await send(full.app, "POST", "/v1/simulations", { document, draws: 64 })).statusCode).toBe(200);
    await full.app.inject({ method: "POST", url: `${taken[0]!.headers.location}/cancel` });
    expect((await post("/v1/simulations", { document })).statusCode).toBe(202);
    await full.stop();
  });
});
