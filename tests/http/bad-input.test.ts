import { afterAll, beforeAll, describe, expect, test } from "vitest";
import { badDocuments, soundDocument } from "./bad-documents.ts";
import { newProject, send, startApp } from "./start-app.ts";
import type { TestApp } from "./start-app.ts";

let service: TestApp;
let address: string;
beforeAll(async () => {
  service = await startApp();
  address = await newProject(service.app, soundDocument);
});
afterAll(() => service.stop());

/** All there is, to be compared before and after a refusal. */
async function everything(): Promise<string> {
  const urls = [
    "/v1/projects",
    address,
    `${address}/document`,
    `${address}/revisions`,
    `${address}/estimates`,
  ];
  return (await Promise.all(urls.map((url) => service.app.inject(url)))).map(({ body }) => body).join("\n");
}

const routes = [
  ["POST", () => "/v1/simulations", "/document"],
  ["POST", () => "/v1/projects", "/document"],
  ["PUT", () => `${address}/document`, ""],
] as const;

describe("a document that breaks a rule", () => {
  test.each(badDocuments)(
    "%s: every route that takes one says where, what and why",
    async (_, bad, pointer, value, rule) => {
      const before = await everything();
      for (const [method, url, base] of routes) {
        const body = base === "" ? bad : { document: bad };
        const response = await send(service.app, method, url(), body, { "if-match": '"1"' });
        expect(response.statusCode, response.body).toBe(422);
        expect(response.headers["content-type"]).toMatch(/^application\/problem\+json/);
        const { type, faults } = response.json();
        expect(type).toBe("/problems/invalid-body");
        expect(faults).toContainEqual({ pointer: base + pointer, value, rule: expect.stringMatching(rule) });
      }
      expect(await everything()).toBe(before);
    },
  );

  test("is told every rule it breaks at once", async () => {
    const bad = { ...soundDocument, title: "", currency: "pounds", colour: "maroon" };
    const { faults } = (await send(service.app, "POST", "/v1/projects", { document: bad })).json();
    const pointers = faults.map(({ pointer }: { pointer: string }) => pointer);
    expect(pointers.sort()).toEqual(["/document/colour", "/document/currency", "/document/title"]);
  });

  test("without its fault is taken: the table's documents are broken in one place only", async () => {
    const response = await send(service.app, "PUT", `${address}/document`, soundDocument, {
      "if-match": "*",
    });
    expect(response.statusCode, response.body).toBe(200);
  });
});

describe("the rest of a body", () => {
  test.each([
    [{ draws: 31 }, "/draws", "31", /at least 32/],
    [{ draws: 1_000_001 }, "/draws", "1000001", /at most 1000000/],
    [{ draws: 1e20 }, "/draws", "100000000000000000000", /at most 1000000/],
    [{ draws: 100.5 }, "/draws", "100.5", /whole number/],
    [{ draws: "many" }, "/draws", '"many"', /whole number/],
    [{ seed: -1 }, "/seed", "-1", /at least 0/],
    [{ seed: 2 ** 53 }, "/seed", "9007199254740992", /at most|whole number/],
    [{ sampling: "sobol" }, "/sampling", '"sobol"', /stratified/],
    [{ tolerance: { probability: 0.1 } }, "/tolerance", '{"probability":0.1}', /goes only with draws "auto"/],
    [{ draws: "auto", tolerance: { probability: 2 } }, "/tolerance/probability", "2", /at most 1/],
    [{ colour: "red" }, "/colour", '"red"', /unknown field/],
  ])("%j is refused by simulations and estimates", async (options, pointer, value, rule) => {
    const before = await everything();
    for (const [url, body] of [
      ["/v1/simulations", { document: soundDocument, ...options }],
      [`${address}/estimates`, options],
    ] as const) {
      const response = await send(service.app, "POST", url, body);
      expect(response.statusCode, response.body).toBe(422);
      expect(response.json().faults).toEqual([{ pointer, value, rule: expect.stringMatching(rule) }]);
    }
    expect(await everything()).toBe(before);
  });

  test.each([
    ["a project", () => "/v1/projects"],
    ["a simulation", () => "/v1/simulations"],
  ])("must have the document for %s", async (_, url) => {
    const response = await send(service.app, "POST", url(), {});
    expect(response.statusCode).toBe(422);
    expect(response.json().faults).toContainEqual({
      pointer: "/document",
      value: "nothing",
      rule: "required",
    });
    const empty = await service.app.inject({ method: "POST", url: url() });
    expect(empty.json().faults).toEqual(response.json().faults);
  });

  test.each([
    { note: "" },
    { note: "x".repeat(5_001) },
    { note: "A\u001b" },
    { note: 5 },
    { title: "Not here" },
  ])("of a new project is checked: %j", async (field) => {
    const before = await everything();
    const response = await send(service.app, "POST", "/v1/projects", { document: soundDocument, ...field });
    expect(response.statusCode).toBe(422);
    expect(response.json().faults).toMatchObject([{ pointer: `/${Object.keys(field)[0]}` }]);
    expect(await everything()).toBe(before);
  });

  test("is refused where none is declared", async () => {
    const estimate = await send(service.app, "POST", `${address}/estimates`, { draws: 64 });
    const response = await send(service.app, "POST", `${estimate.headers.location}/replay`, { draws: 128 });
    expect(response.statusCode).toBe(422);
    expect(response.json().faults).toEqual([{ pointer: "/draws", value: "128", rule: "unknown field" }]);
  });
});

describe("the query and the path", () => {
  test.each([
    ["note=", "/query/note", "0 characters", /at least one character/],
    ["note=%00", "/query/note", '"\\u0000"', /U\+0000/],
    ["note=A%1B%5B2J", "/query/note", '"A\\u001b[2J"', /no control characters but line breaks and tabs/],
    ["note=A%C2%9B", "/query/note", '"A\\u009b"', /no control characters/],
    ["note=%ED%A0%80", "/query", '"note=%ED%A0%80"', /UTF-8, percent-encoded/],
    ["note=%zz", "/query", '"note=%zz"', /UTF-8, percent-encoded/],
    ["note=A&no%00te=B", "/query", '"no\\u0000te"', /a field name/],
    ["note=A&__proto__=B", "/query/__proto__", '"B"', /__proto__/],
  ])("?%s of a revision is refused", async (query, pointer, value, rule) => {
    const before = await everything();
    const url = `${address}/document?${query}`;
    const response = await send(service.app, "PUT", url, soundDocument, { "if-match": "*" });
    expect(response.statusCode, response.body).toBe(400);
    expect(response.json().faults).toEqual([{ pointer, value, rule: expect.stringMatching(rule) }]);
    expect(await everything()).toBe(before);
  });

  test("may hold a note of several lines", async () => {
    const url = `${address}/document?note=One%0D%0A%09two%0Athree+%F0%9F%8F%8D`;
    const response = await send(service.app, "PUT", url, soundDocument, { "if-match": "*" });
    expect(response.json().note).toBe("One\r\n\ttwo\nthree \u{1f3cd}");
  });

  const digitsOnly = /whole number, written with digits only and no leading zero/;
  test.each([
    ["0", '"0"', /at least 1/],
    ["9".repeat(20), `"${"9".repeat(20)}"`, /at most 1000000000/],
    ["01", '"01"', digitsOnly],
    ["1e0", '"1e0"', digitsOnly],
    ["-1", '"-1"', digitsOnly],
    ["1.0", '"1.0"', digitsOnly],
    ["%201", '" 1"', digitsOnly],
    ["%00", '"\\u0000"', /U\+0000/],
  ])("revision %s is refused", async (revision, value, rule) => {
    const response = await service.app.inject(`${address}/revisions/${revision}/document`);
    expect(response.statusCode, response.body).toBe(400);
    expect(response.json().faults).toEqual([
      { pointer: "/path/revision", value, rule: expect.stringMatching(rule) },
    ]);
  });

  test("a project's id may hold nothing that cannot be stored", async () => {
    const response = await service.app.inject("/v1/projects/%00");
    expect(response.statusCode).toBe(400);
    expect(response.json().faults).toMatchObject([{ pointer: "/path/projectId", value: '"\\u0000"' }]);
  });
});

const sound = JSON.stringify(soundDocument);
const withField = (field: string) => `${sound.slice(0, -1)},${field}}`;
const withCost = (cost: string) => sound.replace('"cost":100', `"cost":${cost}`);
const cost = "/parts/0/routes/0/operations/0/cost";

describe("a body that is JSON, but not what a program may hold", () => {
  test.each([
    ["Infinity as 1e999", withCost("1e999"), cost, "Infinity", /finite/],
    ["-1e999", withCost("-1e999"), cost, "-Infinity", /finite/],
    [
      "a __proto__ key",
      withField('"__proto__":{"isAdmin":true}'),
      "/__proto__",
      '{"isAdmin":true}',
      /__proto__/,
    ],
    ["a __proto__ key twice", withField('"__proto__":1,"__proto__":2'), "/__proto__", "2", /__proto__/],
    [
      "a __proto__ key deep inside",
      withCost('{"__proto__":{"kind":"uniform"}}'),
      `${cost}/__proto__`,
      '{"kind":"uniform"}',
      /__proto__/,
    ],
    [
      "a constructor key",
      withField('"constructor":{"prototype":{"isAdmin":true}}'),
      "/constructor",
      '{"prototype":{"isAdmin":true}}',
      /constructor/,
    ],
    [
      "100,000 levels of nesting",
      withField(`"x":${"[".repeat(1e5)}${"]".repeat(1e5)}`),
      `/x${"/0".repeat(31)}`,
      expect.stringContaining("["),
      /32 levels/,
    ],
    [
      "100,000 levels of objects",
      withField(`"x":${'{"a":'.repeat(1e5)}1${"}".repeat(1e5)}`),
      `/x${"/a".repeat(31)}`,
      expect.stringContaining("{"),
      /32 levels/,
    ],
  ])("%s is told its place", async (_, payload, pointer, value, rule) => {
    const before = await everything();
    const headers = { "content-type": "application/json", "if-match": "*" };
    const put = await service.app.inject({ method: "PUT", url: `${address}/document`, payload, headers });
    const wrapped = `{"document":${payload}}`;
    const post = await service.app.inject({
      method: "POST",
      url: "/v1/simulations",
      payload: wrapped,
      headers,
    });
    for (const [response, base] of [
      [put, ""],
      [post, "/document"],
    ] as const) {
      expect(response.statusCode, response.body.slice(0, 500)).toBe(422);
      expect(response.json().faults).toContainEqual({
        pointer: base + pointer,
        value,
        rule: expect.stringMatching(rule),
      });
    }
    expect(await everything()).toBe(before);
    expect({}).not.toHaveProperty("isAdmin");
  });

  test.each(["__proto__", "constructor"])("a %s key beside the document is told its place", async (key) => {
    const payload = `{"document":${sound},"${key}":{"isAdmin":true}}`;
    const headers = { "content-type": "application/json" };
    const response = await service.app.inject({ method: "POST", url: "/v1/projects", payload, headers });
    expect(response.statusCode).toBe(422);
    expect(response.json().faults).toMatchObject([{ pointer: `/${key}`, value: '{"isAdmin":true}' }]);
    expect({}).not.toHaveProperty("isAdmin");
  });

  test.each([
    ["null", "null"],
    ["[]", "[]"],
    ["5", "5"],
    ['"text"', '"text"'],
  ])("%s is no object", async (payload, value) => {
    const headers = { "content-type": "application/json" };
    for (const url of ["/v1/projects", "/v1/simulations", `${address}/estimates`]) {
      const response = await service.app.inject({ method: "POST", url, payload, headers });
      expect(response.statusCode, url).toBe(422);
      expect(response.json().faults).toEqual([{ pointer: "", value, rule: "must be an object" }]);
    }
  });
});

test.each(["charset=utf-8", 'charset="UTF-8"', "version=1"])(
  "a body of application/json; %s is read",
  async (parameter) => {
    const headers = { "content-type": `application/json; ${parameter}`, "if-match": "*" };
    const url = `${address}/document`;
    const response = await service.app.inject({ method: "PUT", url, payload: sound, headers });
    expect(response.statusCode, response.body).toBe(200);
  },
);

describe("a body that cannot be read", () => {
  const json = { "content-type": "application/json" };
  const gzip = { ...json, "content-encoding": "gzip" };
  const form = { "content-type": "application/x-www-form-urlencoded" };
  const type = "/headers/content-type";
  test.each([
    ["cut short", '{"document":', json, 400, "malformed-json", "", /document/, /must be JSON: .+/],
    ["NaN", '{"draws":NaN}', json, 400, "malformed-json", "", /NaN/, /must be JSON: .+/],
    ["a comment", '{"draws":5/*five*/}', json, 400, "malformed-json", "", /five/, /must be JSON: .+/],
    ["nothing but space", "  ", json, 400, "malformed-json", "", /"  "/, /must be JSON: .+/],
    ["no UTF-8", Buffer.from('{"\xff":1}', "latin1"), json, 400, "malformed-json", "", /ÿ/, /must be UTF-8/],
    [
      "compressed",
      "{}",
      gzip,
      415,
      "unsupported-media-type",
      "/headers/content-encoding",
      /gzip/,
      /identity/,
    ],
    [
      "UTF-16 by its label",
      "{}",
      { "content-type": "application/json; charset=utf-16" },
      415,
      "unsupported-media-type",
      type,
      /utf-16/,
      /charset must be utf-8/,
    ],
    [
      "Latin-1 by its quoted label",
      "{}",
      { "content-type": 'application/json;charset="ISO-8859-1"' },
      415,
      "unsupported-media-type",
      type,
      /ISO-8859-1/,
      /charset must be utf-8/,
    ],
    ["a form", "document=1", form, 415, "unsupported-media-type", type, /urlencoded/, /application\/json/],
    [
      "text",
      sound,
      { "content-type": "text/plain" },
      415,
      "unsupported-media-type",
      type,
      /plain/,
      /application\/json/,
    ],
    ["of no kind", sound, {}, 415, "unsupported-media-type", type, /nothing/, /application\/json/],
    [
      "2 MB",
      `{"x":"${"x".repeat(2e6)}"}`,
      json,
      413,
      "body-too-large",
      "",
      /2000008 bytes/,
      /at most 1048576 bytes/,
    ],
  ])("%s is refused", async (_, payload, headers, status, name, pointer, value, rule) => {
    const before = await everything();
    for (const url of ["/v1/projects", "/v1/simulations", `${address}/estimates`]) {
      const response = await service.app.inject({ method: "POST", url, payload, headers });
      expect(response.statusCode, response.body).toBe(status);
      expect(response.headers["content-type"]).toMatch(/^application\/problem\+json/);
      expect(response.json()).toMatchObject({ type: `/problems/${name}`, status, instance: url });
      const [fault] = response.json().faults;
      expect(fault).toEqual({
        pointer,
        value: expect.stringMatching(value),
        rule: expect.stringMatching(rule),
      });
    }
    expect(await everything()).toBe(before);
  });
});
