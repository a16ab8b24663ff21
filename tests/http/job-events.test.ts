import { afterAll, beforeAll, describe, expect, test, vi } from "vitest";
import type { Server } from "node:http";
import { connect } from "node:net";
import type { AddressInfo, Socket } from "node:net";
import { sql } from "kysely";
import { simulate } from "../../src/simulation/simulate.ts";
import type { EstimateResult } from "../../src/domain/estimate-result.ts";
import { eventStream } from "../../src/http/event-stream.ts";
import { jobStates } from "../../src/http/job-states.ts";
import { openEvents } from "./event-client.ts";
import { fakeRunner } from "./fake-runner.ts";
import { readExample } from "./read-example.ts";
import { send, startApp } from "./start-app.ts";
import type { TestApp } from "./start-app.ts";

const document = readExample("examples/moped-mid-way");
const demo = readExample("demo/barn-stored-single");
/** About 2 MB: more than a few of them do not fit between a service and a client that does not read. */
const big: EstimateResult = JSON.parse(JSON.stringify(simulate(demo, { draws: 64 })));
big.lines = Array.from({ length: 40 }, () => big.lines).flat();
const result = JSON.parse(JSON.stringify(simulate(document, { draws: 64 })));

let service: TestApp;
let server: Server;
let runner: ReturnType<typeof fakeRunner>;
beforeAll(async () => {
  service = await startApp();
  runner = fakeRunner(service);
  await service.app.listen({ host: "127.0.0.1", port: 0 });
  server = service.app.server;
});
afterAll(() => service.stop());

async function newJob(): Promise<{ id: string; address: string; events: string }> {
  const response = await send(
    service.app,
    "POST",
    "/v1/simulations",
    { document },
    { prefer: "respond-async" },
  );
  const { id, links } = response.json();
  return { id, address: links.self, events: links.events };
}

const states = (events: readonly { data: Record<string, unknown> }[]) =>
  events.map(({ data }) => data["state"]);

/** Opens a connection and sends a request; what comes back is left to whoever has it. */
function openSocket(
  server: Server,
  path: string,
  { method = "GET", headers = [], body = "" }: { method?: string; headers?: string[]; body?: string } = {},
): Promise<Socket> {
  const { port } = server.address() as AddressInfo;
  return new Promise((resolve, reject) => {
    const socket = connect(port, "127.0.0.1", () => {
      const lines = [`${method} ${path} HTTP/1.1`, "host: localhost", ...headers, "", body];
      socket.write(lines.join("\r\n"));
      resolve(socket);
    });
    socket.on("error", reject);
  });
}

/** Waits; the test's own time limit is the bound. */
async function until(holds: () => boolean): Promise<void> {
  while (!holds()) await new Promise((resolve) => setTimeout(resolve, 10));
}

/** Watches who waits for jobs. */
function countSubscriptions({ jobEvents }: TestApp) {
  const onChanged = jobEvents.onChanged;
  let open = 0;
  const spy = vi.spyOn(jobEvents, "onChanged").mockImplementation((listener) => {
    const stopListening = onChanged(listener);
    open += 1;
    return () => {
      open -= 1;
      stopListening();
    };
  });
  return { open: () => open, restore: () => spy.mockRestore() };
}

/** Connections that listen for the jobs of the test's own database. */
async function listeners(): Promise<number> {
  const { rows } = await sql<{ count: number }>`
    select count(*)::int as count from pg_stat_activity
    where datname = current_database() and query ilike 'listen%'`.execute(service.database.admin);
  return rows[0]!.count;
}

describe("GET /v1/jobs/{jobId}/events", () => {
  test("tells the job as it is, every change, and the end", async () => {
    const { id, address, events } = await newJob();
    const client = await openEvents(server, events);
    expect(client.response.statusCode).toBe(200);
    expect(client.response.headers).toMatchObject({
      "content-type": "text/event-stream",
      "cache-control": "no-store",
    });
    const told = [await client.next()];
    const changes = [
      () => runner.begin(id),
      () => runner.advance(id, 0.5, result),
      () => runner.finish(id, result),
    ];
    for (const change of changes) {
      await change();
      told.push(await client.next());
    }
    expect(await client.next()).toBeUndefined();
    expect(told.map((event) => event?.data["state"])).toEqual(["waiting", "running", "running", "done"]);
    expect(told.map((event) => event?.data["progress"])).toEqual([0, 0, 0.5, 1]);
    expect(told[2]?.data["partial"]).toEqual(result);
    for (const event of told) expect(event?.id).toBe(event?.data["revision"]);
    expect(told.at(-1)?.data).toEqual((await service.app.inject(address)).json());
  });

  test("of a job that has ended tells just that", async () => {
    const { id, events } = await newJob();
    await runner.begin(id);
    await runner.finish(id, result);
    const client = await openEvents(server, events);
    expect(states(await client.rest())).toEqual(["done"]);
  });

  test("resumes after Last-Event-ID: at once with the newest state when there is a newer one", async () => {
    const { id, events } = await newJob();
    const client = await openEvents(server, events);
    const seen = await client.next();
    client.leave();
    await runner.begin(id);
    await runner.advance(id, 0.25);
    await runner.advance(id, 0.75);
    const back = await openEvents(server, events, { "last-event-id": String(seen?.id) });
    expect((await back.next())?.data).toMatchObject({ state: "running", progress: 0.75 });
    await runner.finish(id, result);
    expect(states(await back.rest())).toEqual(["done"]);
  });

  test("resumes after Last-Event-ID: with nothing when there is nothing newer", async () => {
    const { id, events } = await newJob();
    await runner.begin(id);
    const client = await openEvents(server, events);
    const seen = await client.next();
    client.leave();
    const back = await openEvents(server, events, { "last-event-id": String(seen?.id) });
    await runner.finish(id, result);
    const [next, ...more] = await back.rest();
    expect(next?.data).toMatchObject({ state: "done" });
    expect(next?.id).toBeGreaterThan(Number(seen?.id));
    expect(more).toEqual([]);
  });

  // A browser's EventSource comes back after every end but a 204.
  test("is 204 for a client that had the last event", async () => {
    const { id, events } = await newJob();
    await runner.begin(id);
    await runner.finish(id, result);
    const [last] = await (await openEvents(server, events)).rest();
    const back = await openEvents(server, events, { "last-event-id": String(last?.id) });
    expect(back.response.statusCode).toBe(204);
    expect(await back.rest()).toEqual([]);
  });

  test.each(["x", "-1", "1.5", "01"])("refuses %j as Last-Event-ID", async (value) => {
    const { events } = await newJob();
    const response = await service.app.inject({ url: events, headers: { "last-event-id": value } });
    expect(response.statusCode).toBe(400);
    expect(response.json().faults).toMatchObject([{ pointer: "/headers/last-event-id" }]);
  });

  test("serves several clients and jobs over one listening connection", async () => {
    const [one, other] = [await newJob(), await newJob()];
    const clients = await Promise.all([one, one, one, other].map(({ events }) => openEvents(server, events)));
    for (const client of clients) expect((await client.next())?.data).toMatchObject({ state: "waiting" });
    expect(await listeners()).toBe(1);
    await runner.begin(one.id);
    for (const client of clients.slice(0, 3))
      expect((await client.next())?.data).toMatchObject({ state: "running", id: one.id });
    await runner.begin(other.id);
    await runner.finish(other.id, result);
    const [last] = (await clients[3]!.rest()).slice(-1);
    expect(last?.data).toMatchObject({ state: "done", id: other.id });
    await runner.finish(one.id, result);
    for (const client of clients.slice(0, 3)) expect(states(await client.rest())).toEqual(["done"]);
  });

  test("tells of a change made while the listening connection was lost", async () => {
    const { id, events } = await newJob();
    const client = await openEvents(server, events);
    await client.next();
    await sql`select pg_terminate_backend(pid) from pg_stat_activity
      where datname = current_database() and query ilike 'listen%'`.execute(service.database.admin);
    await runner.begin(id);
    expect((await client.next())?.data).toMatchObject({ state: "running" });
    expect(await listeners()).toBe(1);
    await runner.finish(id, result);
    expect(states(await client.rest())).toEqual(["done"]);
  });
});

describe("a client that goes away", () => {
  test.each([
    ["politely", (socket: Socket) => socket.end()],
    ["with a reset", (socket: Socket) => socket.resetAndDestroy()],
  ])("%s leaves nothing behind", async (_, leave) => {
    const subscriptions = countSubscriptions(service);
    const { events } = await newJob();
    const sockets = await Promise.all(Array.from({ length: 5 }, () => openSocket(server, events)));
    await until(() => subscriptions.open() === 5);
    sockets.forEach(leave);
    await until(() => subscriptions.open() === 0);
    subscriptions.restore();
  });

  test("while it waits for a result leaves the job to run", async () => {
    const subscriptions = countSubscriptions(service);
    const body = JSON.stringify({ document });
    const socket = await openSocket(server, "/v1/simulations", {
      method: "POST",
      headers: [
        "content-type: application/json",
        `content-length: ${Buffer.byteLength(body)}`,
        "prefer: respond-async, wait=60",
      ],
      body,
    });
    await until(() => subscriptions.open() === 1);
    socket.destroy();
    await until(() => subscriptions.open() === 0);
    subscriptions.restore();
    expect((await service.app.inject("/v1/jobs?limit=1")).json().items).toMatchObject([{ state: "waiting" }]);
  });

  test("asks for the headers alone and leaves nothing behind", async () => {
    const subscriptions = countSubscriptions(service);
    const { events } = await newJob();
    const socket = await openSocket(server, events, { method: "HEAD", headers: [] });
    const answer = await new Promise<string>((resolve) =>
      socket.once("data", (data) => resolve(data.toString())),
    );
    expect(answer).toMatch(/^HTTP\/1.1 200 [^]*content-type: text\/event-stream/);
    await until(() => subscriptions.open() === 0);
    subscriptions.restore();
  });
});

describe("while nothing changes", () => {
  test("a comment keeps the connection open, and the job is looked at again", async () => {
    const { id } = await newJob();
    const jobEvents = { onChanged: () => () => undefined };
    const { db } = service.database;
    const end = new AbortController();
    const context = { db, workspaceId: service.workspaceId, jobEvents };
    const written = eventStream(jobStates(context, id, { after: 0, beatMs: 20, signal: end.signal }));
    const next = async () => (await written.next()).value;
    expect(await next()).toMatch(/^retry: \d+\n\n$/);
    expect(await next()).toMatch(/^id: \d+\ndata: .*"state":"waiting"/);
    expect(await next()).toMatch(/^: .*\n\n$/);
    await runner.begin(id);
    let line = await next();
    while (line?.startsWith(":")) line = await next();
    expect(line).toMatch(/^id: \d+\ndata: .*"state":"running"/);
    end.abort();
    while (line !== undefined) line = await next();
  });
});

describe("a service that closes", () => {
  test("ends the streams and answers who waits, and is not kept by a client that reads nothing", async () => {
    const closing = await startApp();
    await closing.app.listen({ host: "127.0.0.1", port: 0 });
    const asked = { document: demo };
    const made = await send(closing.app, "POST", "/v1/simulations", asked, { prefer: "respond-async" });
    const { id, links } = made.json();
    const subscriptions = countSubscriptions(closing);
    const client = await openEvents(closing.app.server, links.events);
    await client.next();
    const waiting = closing.app.inject({
      method: "POST",
      url: "/v1/simulations",
      payload: asked,
      headers: { prefer: "wait=60, respond-async" },
    });
    const stuck = await openSocket(closing.app.server, links.events);
    stuck.pause();
    await until(() => subscriptions.open() === 3);
    const told = client.rest();
    const theirs = fakeRunner(closing);
    await theirs.begin(id);
    for (let count = 1; count < 20; count += 1) await theirs.advance(id, count / 20, big);
    await closing.stop();
    expect((await told).at(-1)?.data).toMatchObject({ state: "running" });
    expect((await waiting).statusCode).toBe(202);
    expect(subscriptions.open()).toBe(0);
    stuck.destroy();
  });
});
