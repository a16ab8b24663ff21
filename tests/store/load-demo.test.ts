import { afterAll, beforeAll, expect, test } from "vitest";
import { loadDemo } from "../../src/store/load-demo.ts";
import { deleteProject, listProjects } from "../../src/store/project-store.ts";
import { freshDatabase } from "../support/fresh-database.ts";
import type { FreshDatabase } from "../support/fresh-database.ts";
import { newWorkspace } from "./sample-estimate.ts";

const demo = new URL("../../seed/demo/barn-stored-single.json", import.meta.url);

let database: FreshDatabase;
beforeAll(async () => {
  database = await freshDatabase();
});
afterAll(() => database.drop());

test("loadDemo() loads the demo once, however many ask at the same time, and never again once deleted", async () => {
  const within = await newWorkspace(database);
  const id = await within((workspace) => Promise.resolve(workspace.id));
  const loaded = await Promise.all(Array.from({ length: 5 }, () => loadDemo(database.db, id, demo)));
  expect(loaded.filter(Boolean)).toHaveLength(1);
  const [project, ...others] = await within((workspace) => listProjects(workspace, { limit: 10 }));
  expect(others).toEqual([]);
  expect(project!.title).toContain("Merrowdale Tarn 350");
  await within((workspace) => deleteProject(workspace, project!.id));
  expect(await loadDemo(database.db, id, demo)).toBe(false);
  expect(await within((workspace) => listProjects(workspace, { limit: 10 }))).toEqual([]);
});
