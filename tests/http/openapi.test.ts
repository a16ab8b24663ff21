import { execFile } from "node:child_process";
import { readFileSync } from "node:fs";
import { resolve } from "node:path";
import { promisify } from "node:util";
import { beforeAll, describe, expect, test } from "vitest";
import { describeApi } from "../../src/http/openapi/describe-api.ts";
import { firstDifference } from "../../src/http/openapi/first-difference.ts";
import { problemTypes } from "../../src/http/problems/problem-types.ts";
import { startApp } from "./start-app.ts";

const root = resolve(import.meta.dirname, "../..");
const kept = JSON.parse(readFileSync(resolve(root, "openapi/openapi.json"), "utf8"));
const run = promisify(execFile);

interface Operation {
  operationId: string;
  summary: string;
  tags: string[];
  requestBody?: { content: Record<string, { example?: object; schema: { $ref?: string } }> };
  responses: Record<string, { description: string; content?: Record<string, unknown> }>;
}

let operations: [string, Operation][];
beforeAll(() => {
  operations = Object.entries(kept.paths as Record<string, Record<string, Operation>>).flatMap(
    ([path, methods]) =>
      Object.entries(methods).map(([method, operation]): [string, Operation] => [
        `${method} ${path}`,
        operation,
      ]),
  );
});

describe("openapi/openapi.json", () => {
  test("is what the routes' schemas say today (else: npm run openapi)", async () => {
    expect(kept).toEqual(JSON.parse(JSON.stringify(await describeApi())));
    expect(kept.openapi).toMatch(/^3\.1\./);
  });

  test("says what becomes of a field that is given twice", () => {
    expect(kept.info.description).toContain("one field twice, only the last counts");
  });

  test("passes the linter", async () => {
    const lint = ["redocly", "lint", "--config", "openapi/redocly.yaml", "openapi/openapi.json"];
    const { stderr } = await run("npx", lint, {
      cwd: root,
      env: { ...process.env, REDOCLY_TELEMETRY: "off", REDOCLY_SUPPRESS_UPDATE_NOTICE: "true" },
    });
    expect(stderr).toContain("Your API description is valid");
  });

  test("names, sums up and tags every operation, and describes every answer", () => {
    expect(operations.length).toBeGreaterThan(12);
    expect(new Set(operations.map(([, { operationId }]) => operationId)).size).toBe(operations.length);
    for (const [name, operation] of operations) {
      expect(operation.summary, name).not.toBe("");
      expect(operation.tags, name).toHaveLength(1);
      for (const { description } of Object.values(operation.responses)) {
        expect(description, name).not.toMatch(/^(Default Response)?$/);
      }
    }
  });

  test("gives every failing answer as problem details of a kind that exists", () => {
    for (const [name, { responses }] of operations) {
      expect(Object.keys(responses), name).toEqual(expect.arrayContaining(["400", "421", "500", "503"]));
      for (const [status, { description, content }] of Object.entries(responses)) {
        if (Number(status) < 400) continue;
        expect(Object.keys(content ?? {}), `${name} ${status}`).toEqual(["application/problem+json"]);
        for (const [, kind] of description.matchAll(/\/problems\/([a-z-]+)/g)) {
          expect(problemTypes[kind as keyof typeof problemTypes].status).toBe(Number(status));
        }
      }
    }
  });

  test("has each schema once, and no reference to nothing", () => {
    const names = Object.keys(kept.components.schemas);
    expect(names.filter((name) => name.endsWith("Input"))).toEqual([]);
    const referred = [...JSON.stringify(kept).matchAll(/"#\/components\/schemas\/([^"]+)"/g)].map(
      ([, name]) => name,
    );
    expect([...new Set(referred)].sort()).toEqual(names.sort());
  });

  test("shows bodies that the service takes", async () => {
    const service = await startApp();
    for (const [name, { requestBody }] of operations) {
      for (const { example } of Object.values(requestBody?.content ?? {})) {
        if (example === undefined || name.includes("{projectId}")) continue;
        const response = await service.app.inject({ method: "POST", url: name.slice(5), payload: example });
        expect(response.statusCode, name).toBeLessThan(300);
      }
    }
    await service.stop();
  });
});

describe("/docs", () => {
  test("shows the description without any other server", async () => {
    const service = await startApp();
    const page = await service.app.inject("/docs/");
    expect(page.statusCode).toBe(200);
    expect(page.body).not.toMatch(/https?:\/\//);
    const files = [...page.body.matchAll(/(?:src|href)="([^"]+)"/g)].map(([, file]) => String(file));
    expect(files.length).toBeGreaterThan(3);
    for (const file of files) {
      const response = await service.app.inject(new URL(file, "http://localhost/docs/").pathname);
      expect(response.statusCode, file).toBe(200);
      expect(response.headers["content-security-policy"]).toMatch(/default-src 'self'/);
    }
    expect((await service.app.inject("/docs/json")).json()).toEqual(kept);
    await service.stop();
  });
});

describe("npm run openapi -- --check", () => {
  test("is content with the file as it is", async () => {
    await run("npm", ["run", "--silent", "openapi", "--", "--check"], { cwd: root });
  });

  test("finds the first line that is another", () => {
    expect(firstDifference("a\nb\nc", "a\nb\nc")).toBeUndefined();
    expect(firstDifference("a\nb\nc", "a\nx\nc")).toBe("line 2:\n- b\n- c\n+ x\n+ c");
    expect(firstDifference("a", "a\nb")).toBe("line 2:\n+ b");
    expect(firstDifference("a\nb", "a")).toBe("line 2:\n- b");
  });
});
