import { afterAll, beforeAll, describe, expect, test } from "vitest";
import { soundDocument } from "./bad-documents.ts";
import { rawAnswer } from "./raw-answer.ts";
import { newProject, send, startApp } from "./start-app.ts";
import type { TestApp } from "./start-app.ts";

let service: TestApp;
let address: string;
beforeAll(async () => {
  service = await startApp();
  address = await newProject(service.app, soundDocument);
});
afterAll(() => service.stop());

describe("the Host header", () => {
  test.each([
    "localhost",
    "localhost:4350",
    "LOCALHOST:1",
    "127.0.0.1:80",
    "127.9.9.9",
    "[::1]:8080",
    "garage.example:99",
  ])("%s is answered", async (host) => {
    expect((await service.app.inject({ url: "/livez", headers: { host } })).statusCode).toBe(200);
  });

  // A page of evil.example whose name points at 127.0.0.1 sends its own name here.
  test.each([
    "evil.example",
    "evil.example:4350",
    "localhost.evil.example",
    "127.0.0.1.evil.example",
    "garage.example.evil.example",
    "evil.example@localhost",
    "localhost/evil.example",
    "10.0.0.8",
    "0.0.0.0",
    "[::2]",
  ])("%j is refused, reading and writing", async (host) => {
    for (const url of ["/", "/livez", "/v1/projects", "/docs/json", "/nowhere"]) {
      const response = await service.app.inject({ url, headers: { host } });
      expect(response.statusCode, url).toBe(421);
      expect(response.json()).toMatchObject({ type: "/problems/foreign-host" });
      expect(response.body).not.toContain(soundDocument.title);
    }
    const post = await send(service.app, "POST", "/v1/projects", { document: soundDocument }, { host });
    expect(post.statusCode).toBe(421);
  });
});

describe("a request without a Host", () => {
  test.each(["GET / HTTP/1.0\r\n\r\n", "GET /v1/projects HTTP/1.1\r\nhost:\r\nconnection: close\r\n\r\n"])(
    "is refused: %j",
    async (bytes) => {
      await service.app.listen({ host: "127.0.0.1", port: 0 }).catch(() => "listens already");
      expect(await rawAnswer(service.app.server, bytes)).toMatch(/^HTTP\/1.1 421 /);
    },
  );
});

describe("a change that a browser's page sends", () => {
  const host = "localhost:4350";
  const changes = [
    ["POST", () => "/v1/projects", { document: soundDocument }],
    ["POST", () => "/v1/simulations", { document: soundDocument, draws: 64 }],
    ["PUT", () => `${address}/document`, soundDocument],
    ["DELETE", () => address, undefined],
  ] as const;

  test.each([
    { "sec-fetch-site": "cross-site", origin: "https://evil.example" },
    { "sec-fetch-site": "cross-site" },
    { "sec-fetch-site": "same-site", origin: "http://localhost:3000" },
    { origin: "https://evil.example" },
    { origin: "http://localhost:3000" },
    { origin: "null" },
  ])("is refused from elsewhere: %j", async (headers) => {
    for (const [method, url, payload] of changes) {
      const response = await service.app.inject({
        method,
        url: url(),
        headers: { host, "if-match": "*", ...headers },
        ...(payload && { payload }),
      });
      expect(response.statusCode, method).toBe(403);
      expect(response.json()).toMatchObject({ type: "/problems/foreign-origin" });
    }
    expect((await service.app.inject("/v1/projects")).json().items).toHaveLength(1);
    expect((await service.app.inject(address)).json().revision).toBe(1);
  });

  test.each([
    { "sec-fetch-site": "same-origin", origin: "http://localhost:4350" },
    { "sec-fetch-site": "none" },
    { origin: "http://localhost:4350" },
    {},
  ])("is taken from its own page, and from programs: %j", async (headers) => {
    const response = await send(
      service.app,
      "POST",
      "/v1/simulations",
      { document: soundDocument, draws: 64 },
      { host, ...headers },
    );
    expect(response.statusCode).toBe(200);
  });

  test("is not invited: no answer allows another origin", async () => {
    const headers = { origin: "https://evil.example", "access-control-request-method": "PUT" };
    const preflight = await service.app.inject({ method: "OPTIONS", url: `${address}/document`, headers });
    expect(preflight.statusCode).toBe(405);
    const read = await service.app.inject({ url: address, headers: { origin: "https://evil.example" } });
    for (const response of [preflight, read]) {
      expect(Object.keys(response.headers).filter((name) => name.startsWith("access-control"))).toEqual([]);
      expect(response.headers["cross-origin-resource-policy"]).toBe("same-origin");
    }
  });
});
