import { afterAll, beforeAll, describe, expect, test, vi } from "vitest";
import { soundDocument } from "./bad-documents.ts";
import { newProject, secondApp, send, startApp } from "./start-app.ts";
import type { TestApp } from "./start-app.ts";

let service: TestApp;
let project: string;
beforeAll(async () => {
  service = await startApp();
  project = await newProject(service.app, soundDocument);
});
afterAll(() => service.stop());

const asynchronous = { prefer: "respond-async" };
const made = {
  "a project": {
    url: () => "/v1/projects",
    list: () => "/v1/projects",
    body: { document: soundDocument },
    headers: {},
  },
  "an estimate": {
    url: () => `${project}/estimates`,
    list: () => `${project}/estimates`,
    body: { draws: 64 },
    headers: {},
  },
  "an estimate's job": {
    url: () => `${project}/estimates`,
    list: () => "/v1/jobs",
    body: { draws: 64 },
    headers: asynchronous,
  },
  "a simulation's job": {
    url: () => "/v1/simulations",
    list: () => "/v1/jobs",
    body: { document: soundDocument, draws: 64 },
    headers: asynchronous,
  },
};
type What = keyof typeof made;
const everything = Object.keys(made) as What[];

let keys = 0;
const newKey = () => `key-${(keys += 1)}`;
const ask = (what: What, key: string, body: object = made[what].body) =>
  send(service.app, "POST", made[what].url(), body, { ...made[what].headers, "idempotency-key": key });
const count = async (what: What) =>
  (await service.app.inject(`${made[what].list()}?limit=200`)).json().items.length;

describe("a request sent again with its Idempotency-Key", () => {
  test.each(everything)("makes %s once and is answered with it again", async (what) => {
    const [before, key] = [await count(what), newKey()];
    const first = await ask(what, key);
    const again = await ask(what, key);
    expect(first.headers.location).toBeDefined();
    expect([again.statusCode, again.headers.location, again.json()]).toEqual([
      first.statusCode,
      first.headers.location,
      first.json(),
    ]);
    expect(await count(what)).toBe(before + 1);
  });

  test.each(everything)("makes %s once when sent many times at once", async (what) => {
    const [before, key] = [await count(what), newKey()];
    const answers = await Promise.all(Array.from({ length: 6 }, () => ask(what, key)));
    expect(new Set(answers.map(({ headers }) => headers.location)).size).toBe(1);
    expect(new Set(answers.map(({ statusCode }) => statusCode)).size).toBe(1);
    expect(await count(what)).toBe(before + 1);
  });

  test("does not simulate again", async () => {
    const key = newKey();
    const run = vi.spyOn(service.pool, "run");
    await ask("an estimate", key);
    await ask("an estimate", key);
    expect(run).toHaveBeenCalledTimes(1);
    run.mockRestore();
  });

  test("is answered with the estimate where the first was, though it prefers a job now", async () => {
    const key = newKey();
    const first = await ask("an estimate", key);
    const again = await ask("an estimate's job", key);
    expect(again.statusCode).toBe(201);
    expect(again.json()).toEqual(first.json());
  });

  test("shows what has become of it", async () => {
    const key = newKey();
    const { location } = (await ask("a simulation's job", key)).headers;
    await service.app.inject({ method: "POST", url: `${location}/cancel` });
    expect((await ask("a simulation's job", key)).json()).toMatchObject({ state: "cancelled" });
  });
});

describe("an Idempotency-Key", () => {
  test.each(everything)("used for %s is refused with another body", async (what) => {
    const key = newKey();
    await ask(what, key);
    const before = await count(what);
    const other =
      "document" in made[what].body ? { document: { ...soundDocument, title: "Other" } } : { draws: 65 };
    const refused = await ask(what, key, other);
    expect(refused.statusCode).toBe(422);
    expect(refused.json()).toMatchObject({ type: "/problems/key-used-otherwise" });
    expect(await count(what)).toBe(before);
  });

  test("is refused at another address", async () => {
    const key = newKey();
    await ask("an estimate", key);
    const other = await newProject(service.app, soundDocument);
    const refused = await send(
      service.app,
      "POST",
      `${other}/estimates`,
      { draws: 64 },
      { "idempotency-key": key },
    );
    expect(refused.json()).toMatchObject({ type: "/problems/key-used-otherwise" });
  });

  test("stays free when its request made nothing", async () => {
    const key = newKey();
    const gone = await newProject(service.app, soundDocument);
    await service.app.inject({ method: "DELETE", url: gone, headers: { "if-match": "*" } });
    for (const headers of [{}, asynchronous]) {
      const refused = await send(
        service.app,
        "POST",
        `${gone}/estimates`,
        {},
        { ...headers, "idempotency-key": key },
      );
      expect(refused.statusCode).toBe(404);
    }
    const full = await secondApp(service, { mostJobsWaiting: 0 });
    const body = made["a simulation's job"].body;
    const refused = await send(full.app, "POST", "/v1/simulations", body, {
      ...asynchronous,
      "idempotency-key": key,
    });
    expect(refused.statusCode).toBe(503);
    expect(
      (await send(full.app, "POST", "/v1/projects", { document: soundDocument }, { "idempotency-key": key }))
        .statusCode,
    ).toBe(201);
    await full.app.close();
    expect((await ask("a project", key)).statusCode).toBe(201);
  });

  test("of another workspace is another key", async () => {
    const key = newKey();
    const { app } = await secondApp(service);
    const theirs = await send(
      app,
      "POST",
      "/v1/projects",
      { document: soundDocument },
      { "idempotency-key": key },
    );
    const ours = await ask("a project", key);
    expect([theirs.statusCode, ours.statusCode]).toEqual([201, 201]);
    expect(ours.headers.location).not.toBe(theirs.headers.location);
    await app.close();
  });

  test.each(["", "two words", "x".repeat(256), "caf\u00e9"])("is refused when it is %j", async (key) => {
    for (const what of everything) {
      const response = await ask(what, key);
      expect(response.statusCode).toBe(400);
      expect(response.json().faults).toMatchObject([{ pointer: "/headers/idempotency-key" }]);
    }
  });
});
