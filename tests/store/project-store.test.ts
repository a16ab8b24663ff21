import { v7 } from "uuid";
import { afterAll, beforeAll, expect, test } from "vitest";
import {
  createProject,
  deleteProject,
  getProject,
  listProjects,
  lockProject,
} from "../../src/store/project-store.ts";
import { listRevisions, putDocument, readDocument } from "../../src/store/document-store.ts";
import { getEstimate, insertEstimate, listEstimates } from "../../src/store/estimate-store.ts";
import { freshDatabase } from "../support/fresh-database.ts";
import type { FreshDatabase } from "../support/fresh-database.ts";
import { newProject, newWorkspace, sampleResult, sampleRevision } from "./sample-estimate.ts";

let database: FreshDatabase;
beforeAll(async () => {
  database = await freshDatabase();
});
afterAll(() => database.drop());

test("createProject() makes a project at revision 1 with its document's title", async () => {
  const within = await newWorkspace(database);
  const revision = sampleRevision("Vireo 125");
  const id = await within((workspace) => newProject(workspace, revision));
  const project = await within((workspace) => getProject(workspace, id));
  expect(project).toMatchObject({
    id,
    title: "Vireo 125",
    revision: 1,
    documentDigest: revision.documentDigest,
  });
  expect(project?.updatedAt).toEqual(project?.createdAt);
});

test("createProject() leaves nothing behind when its document is refused", async () => {
  const within = await newWorkspace(database);
  const refused = within((workspace) =>
    createProject(workspace, { id: v7(), ...sampleRevision(""), author: "x" }),
  );
  await expect(refused).rejects.toMatchObject({ code: "23514" });
  expect(await within((workspace) => listProjects(workspace, { limit: 10 }))).toEqual([]);
});

test("listProjects() pages through all projects, newest first, each once", async () => {
  const within = await newWorkspace(database);
  const ids: string[] = [];
  for (let made = 0; made < 7; made++) ids.unshift(await within((workspace) => newProject(workspace)));
  const seen: string[] = [];
  for (let after: string | undefined; ; after = seen.at(-1)) {
    const page = await within((workspace) => listProjects(workspace, { limit: 3, after }));
    if (page.length === 0) break;
    expect(page.length).toBeLessThanOrEqual(3);
    seen.push(...page.map((project) => project.id));
  }
  expect(seen).toEqual(ids);
});

test("deleteProject() hides a project and all that is below it, once", async () => {
  const within = await newWorkspace(database);
  await within(async (workspace) => {
    const revision = sampleRevision();
    const id = await newProject(workspace, revision);
    const estimate = { id: v7(), projectId: id, revision: 1, result: sampleResult(revision.documentDigest) };
    expect(await insertEstimate(workspace, estimate)).toBe(true);

    expect(await deleteProject(workspace, id)).toBe(true);

    expect(await getProject(workspace, id)).toBeUndefined();
    expect(await listProjects(workspace, { limit: 10 })).toEqual([]);
    expect(await readDocument(workspace, id)).toBeUndefined();
    expect(await readDocument(workspace, id, 1)).toBeUndefined();
    expect(await listRevisions(workspace, id, { limit: 10 })).toEqual([]);
    expect(await putDocument(workspace, id, { expectedRevision: 1, ...revision })).toBeUndefined();
    expect(await listEstimates(workspace, id, { limit: 10 })).toEqual([]);
    expect(await getEstimate(workspace, id, estimate.id)).toBeUndefined();
    expect(await insertEstimate(workspace, { ...estimate, id: v7() })).toBe(false);
    expect(await deleteProject(workspace, id)).toBe(false);
  });
});

test("deleteProject() and getProject() know no project of an unused id", async () => {
  const within = await newWorkspace(database);
  expect(await within((workspace) => deleteProject(workspace, v7()))).toBe(false);
  expect(await within((workspace) => getProject(workspace, v7()))).toBeUndefined();
});

test("lockProject() makes another writer wait, so that what was read is still true when it is deleted", async () => {
  const within = await newWorkspace(database);
  const id = await within((workspace) => newProject(workspace));
  let written: Promise<unknown> = Promise.resolve();
  await within(async (workspace) => {
    await lockProject(workspace, id);
    const writing = { expectedRevision: 1, ...sampleRevision() };
    written = within((other) => putDocument(other, id, writing));
    // Bounded: long enough for a writer that did not wait to be done.
    const first = await Promise.race([
      written.then(() => "written"),
      new Promise((late) => setTimeout(late, 500, "waiting")),
    ]);
    expect(first).toBe("waiting");
    expect(await getProject(workspace, id)).toMatchObject({ revision: 1 });
    expect(await deleteProject(workspace, id)).toBe(true);
  });
  expect(await written).toBeUndefined();
});
