import { afterAll, beforeAll, describe, expect, test } from "vitest";
import { digestOf } from "../../src/domain/digest.ts";
import { readExample } from "./read-example.ts";
import { newProject, secondApp, send, startApp } from "./start-app.ts";
import type { TestApp } from "./start-app.ts";

const document = readExample("examples/smallest");
const unknownId = "0198f0a0-5c1e-7d35-9a53-1f0f5d9c2a11";

let service: TestApp;
beforeAll(async () => (service = await startApp()));
afterAll(() => service.stop());

describe("POST /v1/projects", () => {
  test("answers 201 with the project, its address and its tag", async () => {
    const response = await send(service.app, "POST", "/v1/projects", { document, note: "As first seen" });
    expect(response.statusCode).toBe(201);
    const project = response.json();
    expect(project).toMatchObject({ title: document.title, revision: 1, documentDigest: digestOf(document) });
    expect(response.headers).toMatchObject({ location: `/v1/projects/${project.id}`, etag: '"1"' });
  });

  test("keeps the note with the first revision", async () => {
    const { headers } = await send(service.app, "POST", "/v1/projects", { document, note: "As first seen" });
    const revisions = await service.app.inject(`${headers.location}/revisions`);
    expect(revisions.json().items).toMatchObject([{ revision: 1, note: "As first seen" }]);
  });
});

describe("GET /v1/projects", () => {
  test("gives every project once, newest first, page by page", async () => {
    const { app } = await secondApp(service);
    const made: string[] = [];
    for (let count = 0; count < 5; count += 1) made.unshift(await newProject(app, document));
    const seen: string[] = [];
    const sizes: number[] = [];
    for (let cursor: string | undefined = ""; cursor !== undefined;) {
      const query: Record<string, string> = cursor === "" ? { limit: "2" } : { limit: "2", cursor };
      const page = (await app.inject({ url: "/v1/projects", query })).json();
      seen.push(...page.items.map(({ id }: { id: string }) => `/v1/projects/${id}`));
      sizes.push(page.items.length);
      cursor = page.nextCursor;
    }
    expect(seen).toEqual(made);
    expect(sizes).toEqual([2, 2, 1]);
    await app.close();
  });

  test("says nothing of another page when a page ends the list exactly", async () => {
    const { app } = await secondApp(service);
    await newProject(app, document);
    await newProject(app, document);
    expect((await app.inject("/v1/projects?limit=2")).json()).not.toHaveProperty("nextCursor");
    await app.close();
  });

  const digitsOnly = "must be a whole number, written with digits only and no leading zero";
  test.each([
    ["limit=0", "/query/limit", '"0"', "limit is at least 1"],
    ["limit=201", "/query/limit", '"201"', "limit is at most 200"],
    [`limit=${"9".repeat(20)}`, "/query/limit", `"${"9".repeat(20)}"`, "limit is at most 200"],
    ["limit=some", "/query/limit", '"some"', digitsOnly],
    ["limit=", "/query/limit", '""', digitsOnly],
    ["limit=0x10", "/query/limit", '"0x10"', digitsOnly],
    ["limit=1e2", "/query/limit", '"1e2"', digitsOnly],
    ["limit=%201", "/query/limit", '" 1"', digitsOnly],
    ["limit=%2B1", "/query/limit", '"+1"', digitsOnly],
    ["limit=01", "/query/limit", '"01"', digitsOnly],
    ["limit=1&limit=2", "/query/limit", '["1","2"]', digitsOnly],
    [
      "cursor=bm9uc2Vuc2U",
      "/query/cursor",
      '"bm9uc2Vuc2U"',
      "must be the nextCursor of an earlier page of this list",
    ],
    ["cursor=%00", "/query/cursor", '"\\u0000"', "text cannot hold the character U+0000"],
    ["colour=red", "/query/colour", '"red"', "unknown parameter"],
  ])("refuses ?%s", async (query, pointer, value, rule) => {
    const response = await service.app.inject(`/v1/projects?${query}`);
    expect(response.statusCode).toBe(400);
    const { type, faults } = response.json();
    expect(type).toBe("/problems/invalid-request");
    expect(faults).toEqual([{ pointer, value, rule }]);
  });

  test("takes the largest page", async () => {
    expect((await service.app.inject("/v1/projects?limit=200")).statusCode).toBe(200);
  });
});

describe("GET /v1/projects/{projectId}", () => {
  test("gives the project as its newest revision has it", async () => {
    const address = await newProject(service.app, document);
    const renamed = { ...document, title: "The tank, once more" };
    await send(service.app, "PUT", `${address}/document`, renamed, { "if-match": '"1"' });
    const response = await service.app.inject(address);
    expect(response.json()).toMatchObject({ title: "The tank, once more", revision: 2 });
    expect(response.headers.etag).toBe('"2"');
  });

  test.each([
    "",
    "/document",
    "/revisions",
    "/revisions/1/document",
    "/estimates",
    `/estimates/${unknownId}`,
  ])("answers 404 for a project nobody made, at %s", async (path) => {
    const response = await service.app.inject(`/v1/projects/${unknownId}${path}`);
    expect(response.statusCode).toBe(404);
    expect(response.json()).toMatchObject({ type: "/problems/not-found" });
    expect(response.json().detail).toContain(unknownId);
  });

  test("answers 400 for what is no id", async () => {
    const response = await service.app.inject("/v1/projects/nonsense");
    expect(response.statusCode).toBe(400);
    expect(response.json().faults).toEqual([
      { pointer: "/path/projectId", value: '"nonsense"', rule: "must be a UUID in lower case" },
    ]);
  });
});

describe("DELETE /v1/projects/{projectId}", () => {
  test("hides the project and all that hangs on it", async () => {
    const address = await newProject(service.app, document);
    const estimate = await send(service.app, "POST", `${address}/estimates`, { draws: 64 });
    const remove = { method: "DELETE", url: address, headers: { "if-match": '"1"' } } as const;
    const response = await service.app.inject(remove);
    expect(response.statusCode).toBe(204);
    expect(response.body).toBe("");
    for (const url of [address, `${address}/document`, `${address}/revisions`, estimate.headers.location]) {
      expect((await service.app.inject(String(url))).statusCode, String(url)).toBe(404);
    }
    expect((await service.app.inject(remove)).statusCode).toBe(404);
  });

  test("needs the tag of the newest revision", async () => {
    const address = await newProject(service.app, document);
    const without = await service.app.inject({ method: "DELETE", url: address });
    expect(without.statusCode).toBe(428);
    const stale = await service.app.inject({
      method: "DELETE",
      url: address,
      headers: { "if-match": '"7"' },
    });
    expect(stale.statusCode).toBe(412);
    expect((await service.app.inject(address)).statusCode).toBe(200);
  });
});

describe("two workspaces on one database", () => {
  test("see nothing of each other's projects, documents and estimates", async () => {
    const ours = await newProject(service.app, document);
    const estimate = await send(service.app, "POST", `${ours}/estimates`, { draws: 64 });
    const { app: theirs } = await secondApp(service);
    expect((await theirs.inject("/v1/projects")).json()).toEqual({ items: [] });
    for (const path of [ours, `${ours}/document`, `${ours}/revisions`, `${ours}/estimates`]) {
      expect((await theirs.inject(path)).statusCode, path).toBe(404);
    }
    expect((await theirs.inject(String(estimate.headers.location))).statusCode).toBe(404);
    const put = await send(theirs, "PUT", `${ours}/document`, document, { "if-match": "*" });
    expect(put.statusCode).toBe(404);
    const replay = await send(theirs, "POST", `${estimate.headers.location}/replay`, {});
    expect(replay.statusCode).toBe(404);
    expect((await service.app.inject(ours)).json()).toMatchObject({ revision: 1 });
    await theirs.close();
  });
});
