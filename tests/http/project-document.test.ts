import fc from "fast-check";
import { afterAll, beforeAll, beforeEach, describe, expect, test } from "vitest";
import { digestOf } from "../../src/domain/digest.ts";
import type { EstimateDocument } from "../../src/domain/estimate-document.ts";
import { generatedDocument } from "../simulation/plain/generated-document.ts";
import { readExample } from "./read-example.ts";
import { newProject, send, startApp } from "./start-app.ts";
import type { TestApp } from "./start-app.ts";

const document = readExample("examples/moped-mid-way");

let service: TestApp;
beforeAll(async () => (service = await startApp()));
afterAll(() => service.stop());

let address: string;
beforeEach(async () => {
  address = await newProject(service.app, document);
});

const put = (written: object, headers: Record<string, string>, query = "") =>
  send(service.app, "PUT", `${address}/document${query}`, written, headers);

describe("PUT /v1/projects/{projectId}/document", () => {
  test("adds a revision and leaves the earlier ones as they were", async () => {
    const changed = { ...document, title: "Changed" };
    const response = await put(changed, { "if-match": '"1"' }, "?note=new%20quote");
    expect(response.statusCode).toBe(200);
    expect(response.headers.etag).toBe('"2"');
    expect(response.json()).toMatchObject({
      revision: 2,
      title: "Changed",
      note: "new quote",
      documentDigest: digestOf(changed),
    });
    expect((await service.app.inject(`${address}/document`)).json()).toEqual(changed);
    const first = await service.app.inject(`${address}/revisions/1/document`);
    expect(first.json()).toEqual(document);
    expect(first.headers.etag).toBe('"1"');
    const revisions = (await service.app.inject(`${address}/revisions`)).json();
    expect(revisions.items.map(({ revision }: { revision: number }) => revision)).toEqual([2, 1]);
  });

  test("is no way to start a project", async () => {
    const nowhere = "/v1/projects/0198f0a0-5c1e-7d35-9a53-1f0f5d9c2a11/document";
    const response = await send(service.app, "PUT", nowhere, document, { "if-match": "*" });
    expect(response.statusCode).toBe(404);
  });

  // Property. Documents are made up from a seed; titles and notes are any text that may be stored, and the
  // order of fields is turned round, because a document's meaning does not depend on it.
  test("keeps every document it takes as the same JSON value", { timeout: 120_000 }, async () => {
    const text = fc.string({ unit: "grapheme", minLength: 1, maxLength: 40 });
    await fc.assert(
      fc.asyncProperty(fc.nat(), text, text, fc.boolean(), async (seed, title, note, turned) => {
        const made: EstimateDocument = { ...generatedDocument(seed), title };
        made.vehicle.note = note;
        const sent = turned ? Object.fromEntries(Object.entries(made).reverse()) : made;
        const { headers } = await service.app.inject(address);
        const response = await put(sent, { "if-match": String(headers.etag) });
        expect(response.statusCode, response.body).toBe(200);
        const read = await service.app.inject(`${address}/document`);
        expect(read.body).toBe(JSON.stringify(sent));
      }),
      { numRuns: 60, seed: 20260601 },
    );
  });
});

describe("If-Match", () => {
  // Source: RFC 9110, 13.1.1 and 8.8.3.2: the strong comparison, in which a weak tag equals nothing.
  test.each([
    ['"1"', 200],
    ['"9", "1"', 200],
    [' "9" ,, "1" ', 200],
    ["*", 200],
    ['"2"', 412],
    ['W/"1"', 412],
    ['"9", W/"1"', 412],
    ['""', 412],
    ["1", 400],
    ['"1', 400],
    ['"1" "2"', 400],
    ['*, "1"', 400],
    ["", 400],
  ])("%j on revision 1 is answered with %i", async (tag, status) => {
    const response = await put({ ...document, title: "Changed" }, { "if-match": tag });
    expect(response.statusCode, response.body).toBe(status);
    const now = await service.app.inject(`${address}/document`);
    expect(now.headers.etag).toBe(status === 200 ? '"2"' : '"1"');
    expect(now.json().title).toBe(status === 200 ? "Changed" : document.title);
  });

  test("is required", async () => {
    const response = await put(document, {});
    expect(response.statusCode).toBe(428);
    expect(response.json()).toMatchObject({ type: "/problems/precondition-required" });
  });

  test("of an earlier revision is told the current tag", async () => {
    await put(document, { "if-match": '"1"' });
    const response = await put(document, { "if-match": '"1"' });
    expect(response.statusCode).toBe(412);
    expect(response.headers.etag).toBe('"2"');
    expect(response.json()).toMatchObject({ type: "/problems/precondition-failed" });
  });

  test("lets exactly one of 50 writers through who all hold the same tag", async () => {
    const writers = Array.from({ length: 50 }, (_, writer) => ({ ...document, title: `Writer ${writer}` }));
    const responses = await Promise.all(writers.map((written) => put(written, { "if-match": '"1"' })));
    const statuses = responses.map(({ statusCode }) => statusCode);
    expect(statuses.filter((status) => status === 200)).toHaveLength(1);
    expect(statuses.filter((status) => status === 412)).toHaveLength(49);
    const winner = writers[statuses.indexOf(200)];
    expect((await service.app.inject(`${address}/document`)).json()).toEqual(winner);
    expect((await service.app.inject(`${address}/revisions`)).json().items).toHaveLength(2);
  });

  test("of * lets every one of 20 writers through, one after the other", async () => {
    const writers = Array.from({ length: 20 }, (_, writer) => ({ ...document, title: `Writer ${writer}` }));
    const responses = await Promise.all(writers.map((written) => put(written, { "if-match": "*" })));
    expect(responses.map(({ statusCode }) => statusCode)).toEqual(writers.map(() => 200));
    expect((await service.app.inject(address)).json()).toMatchObject({ revision: 21 });
  });
});

describe("If-None-Match", () => {
  // Source: RFC 9110, 13.1.2: the weak comparison.
  test.each([
    ['"1"', 304],
    ['W/"1"', 304],
    ['"7", "1"', 304],
    ["*", 304],
    ['"2"', 200],
    ["what is this", 200],
  ])("%j on revision 1 is answered with %i", async (tag, status) => {
    for (const url of [address, `${address}/document`, `${address}/revisions/1/document`]) {
      const response = await service.app.inject({ url, headers: { "if-none-match": tag } });
      expect(response.statusCode, url).toBe(status);
      expect(response.headers.etag).toBe('"1"');
      expect(response.body === "").toBe(status === 304);
    }
  });
});

describe("GET /v1/projects/{projectId}/revisions", () => {
  test("gives every revision once, newest first, page by page", async () => {
    for (const tag of ['"1"', '"2"', '"3"']) await put(document, { "if-match": tag });
    const first = (await service.app.inject(`${address}/revisions?limit=3`)).json();
    const rest = (await service.app.inject(`${address}/revisions?limit=3&cursor=${first.nextCursor}`)).json();
    const numbers = [...first.items, ...rest.items].map(({ revision }: { revision: number }) => revision);
    expect(numbers).toEqual([4, 3, 2, 1]);
    expect(rest).not.toHaveProperty("nextCursor");
  });

  test.each(["0", "1.5", "one", "99999999999"])("knows no revision %s", async (revision) => {
    const response = await service.app.inject(`${address}/revisions/${revision}/document`);
    expect(response.statusCode).toBe(400);
    expect(response.json().faults).toMatchObject([{ pointer: "/path/revision" }]);
  });

  test("answers 404 for a revision that is not there yet", async () => {
    const response = await service.app.inject(`${address}/revisions/2/document`);
    expect(response.statusCode).toBe(404);
  });
});
