import { v7 } from "uuid";
import { afterAll, beforeAll, expect, test } from "vitest";
import type { EstimateResult } from "../../src/domain/estimate-result.ts";
import { putDocument } from "../../src/store/document-store.ts";
import { getEstimate, insertEstimate, listEstimates } from "../../src/store/estimate-store.ts";
import { freshDatabase } from "../support/fresh-database.ts";
import type { FreshDatabase } from "../support/fresh-database.ts";
import { digestOf, newProject, newWorkspace, sampleResult, sampleRevision } from "./sample-estimate.ts";

let database: FreshDatabase;
beforeAll(async () => {
  database = await freshDatabase();
});
afterAll(() => database.drop());

const revision = sampleRevision();

test("getEstimate() gives the result and the document it was computed from, whatever came later", async () => {
  const within = await newWorkspace(database);
  const result = sampleResult(revision.documentDigest, Number.MAX_SAFE_INTEGER);
  const id = v7();
  const projectId = await within((workspace) => newProject(workspace, revision));
  await within(async (workspace) => {
    expect(await insertEstimate(workspace, { id, projectId, revision: 1, result })).toBe(true);
    await putDocument(workspace, projectId, { expectedRevision: 1, ...sampleRevision("later") });
  });
  const found = await within((workspace) => getEstimate(workspace, projectId, id));
  expect(found).toMatchObject({
    id,
    projectId,
    revision: 1,
    documentDigest: revision.documentDigest,
    resultDigest: result.resultDigest,
    engineVersion: "1",
    seed: Number.MAX_SAFE_INTEGER,
    draws: 10_000,
    sampling: "stratified",
  });
  expect(found?.document).toEqual(revision.document);
  expect(JSON.stringify(found?.result)).toBe(JSON.stringify(result));
});

test("getEstimate() knows no estimate of an unused id, nor under another project", async () => {
  const within = await newWorkspace(database);
  await within(async (workspace) => {
    const [projectId, other, id] = [
      await newProject(workspace, revision),
      await newProject(workspace, revision),
      v7(),
    ];
    await insertEstimate(workspace, {
      id,
      projectId,
      revision: 1,
      result: sampleResult(revision.documentDigest),
    });
    expect(await getEstimate(workspace, projectId, v7())).toBeUndefined();
    expect(await getEstimate(workspace, other, id)).toBeUndefined();
  });
});

test("listEstimates() pages through a project's estimates, newest first", async () => {
  const within = await newWorkspace(database);
  await within(async (workspace) => {
    const projectId = await newProject(workspace, revision);
    for (let seed = 1; seed <= 5; seed++) {
      const result = sampleResult(revision.documentDigest, seed);
      await insertEstimate(workspace, { id: v7(), projectId, revision: 1, result });
    }
    const first = await listEstimates(workspace, projectId, { limit: 3 });
    const second = await listEstimates(workspace, projectId, { limit: 3, after: first.at(-1)?.id });
    expect([...first, ...second].map((estimate) => estimate.seed)).toEqual([5, 4, 3, 2, 1]);
  });
});

test("insertEstimate() knows no project of an unused id", async () => {
  const within = await newWorkspace(database);
  const estimate = { id: v7(), projectId: v7(), revision: 1, result: sampleResult(revision.documentDigest) };
  expect(await within((workspace) => insertEstimate(workspace, estimate))).toBe(false);
});

const good = sampleResult(revision.documentDigest);
const withEngine = (engine: object) => ({ ...good, engine: { ...good.engine, ...engine } }) as EstimateResult;
const foreignKey = "23503";
const check = "23514";
const missing = "23502";
test.each([
  ["of another document", 1, sampleResult(digestOf("other")), foreignKey],
  ["of a revision that is not there", 2, good, foreignKey],
  ["with a negative seed", 1, withEngine({ seed: -1 }), check],
  ["with a seed that a double cannot hold exactly", 1, withEngine({ seed: 2 ** 53 }), check],
  ["without draws", 1, withEngine({ draws: 0 }), check],
  ["with more draws than the limit", 1, withEngine({ draws: 1_000_001 }), check],
  ["with an unknown sampling", 1, withEngine({ sampling: "lucky" }), check],
  ["with an empty engine version", 1, withEngine({ version: "" }), check],
  ["with a digest that is none", 1, { ...good, resultDigest: "abc" }, check],
  ["without an engine", 1, { ...good, engine: undefined } as unknown as EstimateResult, missing],
])("insertEstimate() refuses a result %s", async (_, number, result, code) => {
  const within = await newWorkspace(database);
  const projectId = await within((workspace) => newProject(workspace, revision));
  const refused = within((workspace) =>
    insertEstimate(workspace, { id: v7(), projectId, revision: number, result }),
  );
  await expect(refused).rejects.toMatchObject({ code });
  expect(await within((workspace) => listEstimates(workspace, projectId, { limit: 9 }))).toEqual([]);
});
