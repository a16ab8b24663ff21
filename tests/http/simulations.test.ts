import { request as httpRequest } from "node:http";
import type { AddressInfo } from "node:net";
import { afterAll, beforeAll, describe, expect, test } from "vitest";
import { DomainError } from "../../src/numeric/domain-error.ts";
import { simulate } from "../../src/simulation/simulate.ts";
import { createSimulationPool } from "../../src/jobs/simulation-pool.ts";
import type { SimulationPool } from "../../src/jobs/simulation-pool.ts";
import { readExample } from "./read-example.ts";
import { send, startApp } from "./start-app.ts";
import type { TestApp } from "./start-app.ts";

const document = readExample("examples/moped-mid-way");
const demo = readExample("demo/barn-stored-single");

/** A pool that answers as told. */
const poolOf = (run: SimulationPool["run"]): SimulationPool => ({
  run,
  runWithProgress: (document, options, _, signal) => run(document, options, signal),
  isAlive: () => true,
  close: () => Promise.resolve(),
});

describe("POST /v1/simulations", () => {
  let service: TestApp;
  beforeAll(async () => (service = await startApp()));
  afterAll(() => service.stop());

  test("answers what the engine answers, to the last digit", async () => {
    const options = { draws: 2_000, seed: 7, sampling: "independent" as const };
    const response = await send(service.app, "POST", "/v1/simulations", { document, ...options });
    expect(response.statusCode).toBe(200);
    expect(response.json()).toEqual(JSON.parse(JSON.stringify(simulate(document, options))));
  });

  test("answers the same twice, and something else for another seed", async () => {
    const bodies = await Promise.all(
      [1, 1, 2].map((seed) => send(service.app, "POST", "/v1/simulations", { document, draws: 500, seed })),
    );
    const [first, again, other] = bodies.map(({ body }) => body);
    expect(again).toBe(first);
    expect(other).not.toBe(first);
  });

  test("makes 10,000 stratified draws from seed 1 unless told otherwise", async () => {
    const response = await send(service.app, "POST", "/v1/simulations", { document });
    expect(response.json().engine).toMatchObject({ draws: 10_000, seed: 1, sampling: "stratified" });
  });

  test("stores nothing", async () => {
    await send(service.app, "POST", "/v1/simulations", { document, draws: 64 });
    expect((await service.app.inject("/v1/projects")).json()).toEqual({ items: [] });
  });

  test("leaves the event loop free: other requests are answered while 100,000 draws are made", async () => {
    let isDone = false;
    const simulation = send(service.app, "POST", "/v1/simulations", { document: demo, draws: 100_000 });
    const done = simulation.then(() => (isDone = true));
    let answered = 0;
    while (!isDone) {
      const { statusCode } = await service.app.inject("/livez");
      if (statusCode === 200 && !isDone) answered += 1;
      // A turn of the event loop, so that the simulation's own answer can come in.
      await new Promise((resolve) => setImmediate(resolve));
    }
    await done;
    expect((await simulation).statusCode).toBe(200);
    // A simulation on the event loop would let through the one request that came before it.
    expect(answered).toBeGreaterThan(20);
  });
});

describe("a service with too much to do", () => {
  test("refuses another simulation at once, and takes it when there is room", async () => {
    const pool = createSimulationPool({ threads: 1, mostWaiting: 0 });
    const service = await startApp({ pool });
    const occupation = new AbortController();
    const occupied = pool.run(demo, { draws: 1_000_000 }, occupation.signal).catch(() => "given up");
    const refused = await send(service.app, "POST", "/v1/simulations", { document });
    expect(refused.statusCode).toBe(503);
    expect(refused.json()).toMatchObject({ type: "/problems/overloaded" });
    expect(Number(refused.headers["retry-after"])).toBeGreaterThan(0);
    occupation.abort();
    expect(await occupied).toBe("given up");
    expect((await send(service.app, "POST", "/v1/simulations", { document, draws: 64 })).statusCode).toBe(
      200,
    );
    await service.stop();
  });
});

describe("a simulation that does not end well", () => {
  test.each([
    [new DomainError("worker-lost", "the simulation did not finish: out of memory"), 503, "simulation-lost"],
    [new DomainError("column-too-wide", "9000 columns: at most 8000"), 422, "not-computable"],
    [new TypeError("cannot read /home/someone/secret.ts"), 500, "internal-error"],
  ])("%s", async (error, status, name) => {
    const service = await startApp({ pool: poolOf(() => Promise.reject(error)) });
    const response = await send(service.app, "POST", "/v1/simulations", { document });
    expect(response.statusCode).toBe(status);
    expect(response.json()).toMatchObject({
      type: `/problems/${name}`,
      requestId: expect.stringMatching(/^[0-9a-f-]{36}$/),
    });
    expect(response.body.includes(error.message)).toBe(error instanceof DomainError);
    await service.stop();
  });

  test("is given up when the client goes away", async () => {
    let started = (): void => undefined;
    const running = new Promise<void>((resolve) => (started = resolve));
    let givenUp = (): void => undefined;
    const aborted = new Promise<void>((resolve) => (givenUp = resolve));
    const pool = poolOf((_document, _options, signal) => {
      started();
      return new Promise((_, reject) => {
        signal?.addEventListener("abort", () => {
          givenUp();
          reject(new DomainError("simulation-cancelled", "given up"));
        });
      });
    });
    const service = await startApp({ pool });
    await service.app.listen({ host: "127.0.0.1", port: 0 });
    const { port } = service.app.server.address() as AddressInfo;
    const options = { port, host: "127.0.0.1", method: "POST", path: "/v1/simulations" };
    const client = httpRequest({ ...options, headers: { "content-type": "application/json" } });
    client.on("error", () => undefined);
    client.end(JSON.stringify({ document }));
    await running;
    client.destroy();
    await aborted;
    await service.stop();
  });
});
