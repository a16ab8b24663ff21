import { v7 } from "uuid";
import { afterAll, beforeAll, describe, expect, test } from "vitest";
import { digestOf } from "../../src/domain/digest.ts";
import type { EstimateResult } from "../../src/domain/estimate-result.ts";
import { engineChanges } from "../../src/simulation/engine-changes.ts";
import { engineVersion } from "../../src/simulation/engine-version.ts";
import { inWorkspace } from "../../src/store/in-workspace.ts";
import { insertEstimate } from "../../src/store/estimate-store.ts";
import { readExample } from "./read-example.ts";
import { newProject, send, startApp } from "./start-app.ts";
import type { TestApp } from "./start-app.ts";

const document = readExample("examples/moped-mid-way");
const options = { draws: 640, seed: 11, sampling: "independent" };

let service: TestApp;
let address: string;
beforeAll(async () => {
  service = await startApp();
  address = await newProject(service.app, document);
});
afterAll(() => service.stop());

const estimate = (body: object = options) => send(service.app, "POST", `${address}/estimates`, body);

describe("POST /v1/projects/{projectId}/estimates", () => {
  test("keeps document, options, engine and result", async () => {
    const response = await estimate();
    expect(response.statusCode).toBe(201);
    const stored = response.json();
    expect(stored).toMatchObject({ ...options, revision: 1, engineVersion, document });
    expect(stored.documentDigest).toBe(digestOf(document));
    const { resultDigest, ...figures } = stored.result;
    expect(stored.resultDigest).toBe(resultDigest);
    expect(digestOf(figures)).toBe(resultDigest);
    expect(response.headers.location).toBe(`${address}/estimates/${stored.id}`);
    expect((await service.app.inject(String(response.headers.location))).json()).toEqual(stored);
  });

  test("gives two runs of the same the same digest, and the stateless route too", async () => {
    const [first, second] = [await estimate(), await estimate()].map((response) => response.json());
    expect(second.resultDigest).toBe(first.resultDigest);
    expect(second.id).not.toBe(first.id);
    const stateless = await send(service.app, "POST", "/v1/simulations", { document, ...options });
    expect(stateless.json().resultDigest).toBe(first.resultDigest);
  });

  test("takes the defaults when there is no body", async () => {
    const response = await service.app.inject({ method: "POST", url: `${address}/estimates` });
    expect(response.statusCode).toBe(201);
    expect(response.json()).toMatchObject({ draws: 10_000, seed: 1, sampling: "stratified" });
  });

  test("computes the revision asked for, the newest unless asked", async () => {
    const other = await newProject(service.app, document);
    const dearer = { ...document, spent: { cash: 900 } };
    await send(service.app, "PUT", `${other}/document`, dearer, { "if-match": '"1"' });
    const [newest, first] = await Promise.all(
      [options, { ...options, revision: 1 }].map((body) =>
        send(service.app, "POST", `${other}/estimates`, body),
      ),
    );
    expect(newest?.json()).toMatchObject({ revision: 2, document: dearer });
    expect(first?.json()).toMatchObject({ revision: 1, document });
    const absent = await send(service.app, "POST", `${other}/estimates`, { revision: 3 });
    expect(absent.statusCode).toBe(404);
    expect(absent.json().detail).toContain("revision 3");
  });
});

describe("GET /v1/projects/{projectId}/estimates", () => {
  test("gives every estimate once, newest first, page by page", async () => {
    const other = await newProject(service.app, document);
    const made: string[] = [];
    for (const seed of [1, 2, 3]) {
      made.unshift((await send(service.app, "POST", `${other}/estimates`, { draws: 64, seed })).json().id);
    }
    const first = (await service.app.inject(`${other}/estimates?limit=2`)).json();
    const rest = (await service.app.inject(`${other}/estimates?limit=2&cursor=${first.nextCursor}`)).json();
    expect([...first.items, ...rest.items].map(({ id }: { id: string }) => id)).toEqual(made);
    expect(first.items[0]).toMatchObject({ seed: 3, draws: 64, revision: 1 });
    expect(first.items[0]).not.toHaveProperty("result");
  });
});

describe("POST /v1/projects/{projectId}/estimates/{estimateId}/replay", () => {
  test("computes the same again, to the last digit", async () => {
    const stored = (await estimate()).json();
    const response = await service.app.inject({
      method: "POST",
      url: `${address}/estimates/${stored.id}/replay`,
    });
    expect(response.statusCode).toBe(200);
    expect(response.json()).toEqual({
      matches: true,
      replayable: true,
      explanation: "Every figure is the same, to the last digit.",
      storedEngineVersion: engineVersion,
      engineVersion,
      engineChanges: [],
      storedDigest: stored.resultDigest,
      recomputedDigest: stored.resultDigest,
      mainFigures: [],
      differenceCount: 0,
      differences: [],
    });
  });

  test("replays the revision it was computed from, whatever the project has become", async () => {
    const other = await newProject(service.app, document);
    const stored = await send(service.app, "POST", `${other}/estimates`, options);
    await send(
      service.app,
      "PUT",
      `${other}/document`,
      { ...document, spent: { cash: 9 } },
      { "if-match": "*" },
    );
    const replay = await send(service.app, "POST", `${stored.headers.location}/replay`, {});
    expect(replay.json()).toMatchObject({ matches: true });
  });

  /** Keeps an estimate as another engine might have computed it: its median is off by three of its standard errors. */
  async function estimateOf(version: string): Promise<string> {
    const { resultDigest: newDigest, ...result } = (await estimate()).json().result as EstimateResult;
    const { value, standardError } = result.restoration.cash.p50;
    const p50 = { value: value + 3 * standardError, standardError };
    const other = {
      ...result,
      engine: { ...result.engine, version },
      sumOfTypicals: result.sumOfTypicals + 1,
      restoration: { ...result.restoration, cash: { ...result.restoration.cash, p50 } },
    };
    expect(digestOf(other)).not.toBe(newDigest);
    const id = v7();
    await inWorkspace(service.database.db, service.workspaceId, (workspace) =>
      insertEstimate(workspace, {
        id,
        projectId: address.split("/").at(-1) ?? "",
        revision: 1,
        result: { ...other, resultDigest: digestOf(other) },
      }),
    );
    return `${address}/estimates/${id}`;
  }

  const changesUpToNow = engineChanges.slice(
    engineChanges.findIndex(({ version }) => version === engineVersion),
  );

  test("of an older engine's says that it cannot be, what has changed, and what differs today", async () => {
    const url = await estimateOf("0.9.0");
    const replay = (await send(service.app, "POST", `${url}/replay`, {})).json();
    expect(replay).toMatchObject({
      matches: false,
      replayable: false,
      storedEngineVersion: "0.9.0",
      engineVersion,
      engineChanges: changesUpToNow,
      differenceCount: 4,
    });
    expect(replay.explanation).toContain(
      `Engine 0.9.0 computed this estimate, and this is engine ${engineVersion}`,
    );
    expect(replay.explanation).toContain("cannot be replayed to the last digit");
    const pointers = replay.differences.map(({ pointer }: { pointer: string }) => pointer);
    expect(pointers).toEqual([
      "/engine/version",
      "/sumOfTypicals",
      "/restoration/cash/p50/value",
      "/resultDigest",
    ]);
    expect(replay.differences[1].stored - replay.differences[1].recomputed).toBe(1);
    const { result } = (await service.app.inject(url)).json();
    const today = (await estimate()).json().result.restoration.cash.p50;
    expect(replay.mainFigures).toEqual([
      {
        name: "Restoration cost, half below",
        pointer: "/restoration/cash/p50",
        stored: result.restoration.cash.p50,
        today,
        // 3 / sqrt(2), since both have the same standard error.
        standardErrorsApart: expect.closeTo(2.1213203435596424, 9),
      },
    ]);
  });

  test("can be told from the estimate itself, in the list too", async () => {
    const today = (await estimate()).json();
    expect(today).toMatchObject({ replayable: true });
    expect(today).not.toHaveProperty("notReplayable");
    const old = (await service.app.inject(await estimateOf("0.9.0"))).json();
    expect(old).toMatchObject({ replayable: false, notReplayable: { engineChanges: changesUpToNow } });
    expect(old.notReplayable.explanation).toContain("cannot be replayed");
    const { items } = (await service.app.inject(`${address}/estimates?limit=2`)).json();
    expect(items.map((item: object) => "replayable" in item && item.replayable)).toEqual([false, true]);
    expect(items[0]).not.toHaveProperty("notReplayable");
  });

  test("of a newer engine's cannot be either, and nothing is known of what changed", async () => {
    const old = (await service.app.inject(await estimateOf("900.0.0"))).json();
    expect(old).toMatchObject({ replayable: false, notReplayable: { engineChanges: [] } });
  });

  test("calls it a fault when the same engine computes something else", async () => {
    const replay = (await send(service.app, "POST", `${await estimateOf(engineVersion)}/replay`, {})).json();
    expect(replay).toMatchObject({ matches: false, replayable: true, engineChanges: [], differenceCount: 3 });
    expect(replay.explanation).toContain("fault of the engine");
  });
});
