import type { Server } from "node:http";
import { afterAll, beforeAll, expect, test } from "vitest";
import { startJobRunner } from "../../src/jobs/job-runner.ts";
import type { JobRunner } from "../../src/jobs/job-runner.ts";
import { simulate } from "../../src/simulation/simulate.ts";
import { openEvents } from "./event-client.ts";
import { readExample } from "./read-example.ts";
import { newProject, send, startApp } from "./start-app.ts";
import type { TestApp } from "./start-app.ts";

const document = readExample("demo/barn-stored-single");
const asynchronous = { prefer: "respond-async" };

let service: TestApp;
let server: Server;
let runner: JobRunner;
beforeAll(async () => {
  service = await startApp();
  const { database, pool, jobEvents } = service;
  runner = startJobRunner({ db: database.db, pool, events: jobEvents, worker: "test" });
  await service.app.listen({ host: "127.0.0.1", port: 0 });
  server = service.app.server;
});
afterAll(async () => {
  await runner.stop();
  await service.stop();
});

test("a simulation as a job gives what the engine gives, told to its end", async () => {
  const options = { draws: 2_000, seed: 5 };
  const made = await send(service.app, "POST", "/v1/simulations", { document, ...options }, asynchronous);
  const events = await (await openEvents(server, made.json().links.events)).rest();
  const last = events.at(-1)?.data;
  expect(last).toMatchObject({ state: "done", progress: 1, attempts: 1 });
  expect(last?.["result"]).toEqual(JSON.parse(JSON.stringify(simulate(document, options))));
  const ids = events.map(({ id }) => id);
  expect(ids).toEqual([...new Set(ids)].sort((a, b) => a - b));
});

test("an estimate as a job is kept, and replays", async () => {
  const project = await newProject(service.app, document);
  const options = { draws: 500, seed: 6 };
  const made = await send(service.app, "POST", `${project}/estimates`, options, asynchronous);
  await (await openEvents(server, made.json().links.events)).rest();
  const job = (await service.app.inject(made.json().links.self)).json();
  const estimate = (await service.app.inject(job.links.estimate)).json();
  expect(estimate).toMatchObject({ id: job.estimateId, ...options, document, result: job.result });
  const replay = await service.app.inject({ method: "POST", url: `${job.links.estimate}/replay` });
  expect(replay.json()).toMatchObject({ matches: true });
});

test("a client that would wait gets the result itself", async () => {
  const options = { draws: 500, seed: 7 };
  const headers = { prefer: "respond-async, wait=60" };
  const response = await send(service.app, "POST", "/v1/simulations", { document, ...options }, headers);
  expect(response.statusCode).toBe(200);
  expect(response.json()).toEqual(JSON.parse(JSON.stringify(simulate(document, options))));
});

test("a running job shows its progress and the figures so far, and ends when it is cancelled", async () => {
  const long = { document, draws: 1_000_000 };
  const made = await send(service.app, "POST", "/v1/simulations", long, asynchronous);
  const client = await openEvents(server, made.json().links.events);
  let told = await client.next();
  while (told !== undefined && told.data["partial"] === undefined) told = await client.next();
  expect(told?.data["progress"]).toBeGreaterThan(0);
  const { engine } = told?.data["partial"] as { engine: { draws: number } };
  expect(engine.draws).toBeGreaterThan(0);
  expect(engine.draws).toBeLessThan(long.draws);
  const cancelled = await service.app.inject({ method: "POST", url: `${made.json().links.self}/cancel` });
  expect(cancelled.statusCode).toBe(202);
  const rest = await client.rest();
  expect(rest.at(-1)?.data).toMatchObject({ state: "cancelled" });
});
