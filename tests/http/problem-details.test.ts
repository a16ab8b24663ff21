import { sql } from "kysely";
import supertest from "supertest";
import { afterAll, beforeAll, describe, expect, test } from "vitest";
import { problemTypes } from "../../src/http/problems/problem-types.ts";
import { createPredictor } from "../../src/jobs/predicted-ms.ts";
import { openAppDatabase } from "../../src/store/open-database.ts";
import { buildApp } from "../../src/http/build-app.ts";
import { rawAnswer } from "./raw-answer.ts";
import { startApp } from "./start-app.ts";
import type { TestApp } from "./start-app.ts";

let service: TestApp;
beforeAll(async () => {
  service = await startApp();
  await service.app.listen({ host: "127.0.0.1", port: 0 });
});
afterAll(() => service.stop());

const project = "/v1/projects/0198f0a0-5c1e-7d35-9a53-1f0f5d9c2a11";

describe("an address that nothing has", () => {
  test.each(["/v1", "/v1/project", "/v2/projects", "/favicon.ico", "/%2e%2e/etc/passwd"])(
    "%s is answered 404 with problem details",
    async (path) => {
      const response = await supertest(service.app.server).get(path);
      expect(response.status).toBe(404);
      expect(response.type).toBe("application/problem+json");
      expect(response.body).toMatchObject({
        type: "/problems/not-found",
        title: problemTypes["not-found"].title,
        status: 404,
        instance: path,
      });
    },
  );

  test.each([
    ["GET", "/v1/projects/"],
    ["POST", "/v1/projects/"],
    ["DELETE", "/v1/projects/"],
    ["GET", "/v1/projects//document"],
    ["PUT", "/v1/projects//document"],
    ["GET", `${project}/revisions/`],
    ["GET", `${project}/estimates/`],
  ] as const)("%s %s is answered 404: nothing at all is no id", async (method, url) => {
    const response = await service.app.inject({ method, url });
    expect(response.statusCode, response.body).toBe(404);
    expect(response.json()).toMatchObject({ type: "/problems/not-found", instance: url });
  });

  test("is not repeated beyond its first 200 characters", async () => {
    const response = await supertest(service.app.server).get(`/${"x".repeat(5_000)}`);
    expect(response.status).toBe(404);
    expect(response.body.instance).toHaveLength(200);
  });

  test.each([
    ["/v1/projects/%zz", 400, "malformed-request"],
    [`/v1/projects/${"x".repeat(500)}`, 414, "address-too-long"],
  ])("%s", async (path, status, name) => {
    const response = await supertest(service.app.server).get(path);
    expect(response.status).toBe(status);
    expect(response.type).toBe("application/problem+json");
    expect(response.body).toMatchObject({ type: `/problems/${name}`, status });
  });
});

describe("a method that a resource does not take", () => {
  test.each([
    ["DELETE", "/v1/projects", "GET, HEAD, POST"],
    ["GET", "/v1/simulations", "POST"],
    ["POST", project, "DELETE, GET, HEAD"],
    ["PATCH", `${project}/document`, "GET, HEAD, PUT"],
    ["PUT", "/livez", "GET, HEAD"],
  ] as const)("%s %s is answered 405 with what it takes", async (method, url, allow) => {
    const response = await service.app.inject({ method, url });
    expect(response.statusCode).toBe(405);
    expect(response.headers.allow).toBe(allow);
    expect(response.json()).toMatchObject({ type: "/problems/method-not-allowed" });
  });
});

describe("a query where none is declared", () => {
  test.each([project, `${project}/document`, "/livez"])("is refused at %s", async (url) => {
    const response = await service.app.inject(`${url}?colour=red`);
    expect(response.statusCode).toBe(400);
    expect(response.json().faults).toEqual([
      { pointer: "/query/colour", value: '"red"', rule: "unknown parameter" },
    ]);
  });
});

describe("what is no HTTP", () => {
  test.each([
    ["NONSENSE\r\n\r\n", 400, "malformed-request"],
    [`GET / HTTP/1.1\r\nhost: localhost\r\nx: ${"x".repeat(20_000)}\r\n\r\n`, 431, "headers-too-large"],
  ] as const)("is answered with problem details too", async (bytes, status, name) => {
    const answer = await rawAnswer(service.app.server, bytes);
    expect(answer).toMatch(new RegExp(`^HTTP/1.1 ${status} `));
    expect(answer).toContain("content-type: application/problem+json");
    expect(JSON.parse(answer.split("\r\n\r\n")[1] ?? "")).toEqual({
      type: `/problems/${name}`,
      title: problemTypes[name].title,
      status,
      detail: problemTypes[name].meaning,
    });
  });
});

describe("health", () => {
  test("says that the service lives and is ready", async () => {
    expect((await service.app.inject("/livez")).json()).toEqual({ status: "alive" });
    expect((await service.app.inject("/readyz")).json()).toEqual({ status: "ready" });
  });

  test("is not ready without worker threads", async () => {
    const dead = await startApp();
    await dead.pool.close();
    const response = await dead.app.inject("/readyz");
    expect(response.statusCode).toBe(503);
    expect(response.json()).toMatchObject({ type: "/problems/not-ready" });
    expect((await dead.app.inject("/livez")).statusCode).toBe(200);
    await dead.stop();
  });

  test("is not ready when the tables are missing, and says no more of the database than that", async () => {
    const bare = await startApp();
    await sql`drop table estimate, project_revision, project cascade`.execute(bare.database.admin);
    const ready = await bare.app.inject("/readyz");
    expect(ready.statusCode).toBe(503);
    expect(ready.headers["retry-after"]).toBe("5");
    const list = await bare.app.inject("/v1/projects");
    expect(list.statusCode).toBe(500);
    expect(list.json()).toMatchObject({
      type: "/problems/internal-error",
      detail: problemTypes["internal-error"].meaning,
    });
    for (const { body } of [ready, list]) expect(body).not.toMatch(/relation|select|project_id|kysely/i);
    await bare.stop();
  });

  test("is not ready when the database is gone, and neither are the routes", async () => {
    const predictor = createPredictor();
    const db = openAppDatabase({ host: "127.0.0.1", port: 1 });
    const { pool, workspaceId, jobEvents } = service;
    const app = await buildApp({ db, pool, predictor, jobEvents, workspaceId, newId: () => "id" });
    for (const url of ["/readyz", "/v1/projects", "/"]) {
      const response = await app.inject(url);
      expect(response.statusCode, url).toBe(503);
      expect(response.json(), url).toMatchObject({ type: "/problems/not-ready" });
    }
    await app.close();
    await db.destroy();
  });
});

describe("the kinds of problem", () => {
  test.each(Object.entries(problemTypes))(
    "%s is explained at its own address",
    async (name, { title, status }) => {
      const response = await service.app.inject(`/problems/${name}`);
      expect(response.statusCode).toBe(200);
      expect(response.headers["content-type"]).toBe("text/html; charset=utf-8");
      expect(response.body).toContain(`status ${status}`);
      expect(response.body).toContain(title.replaceAll("'", "&#39;"));
    },
  );

  test("that do not exist are not explained", async () => {
    expect((await service.app.inject("/problems/no-such-kind")).statusCode).toBe(404);
  });
});
