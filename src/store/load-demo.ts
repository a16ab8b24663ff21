import { readFile } from "node:fs/promises";
import type { Kysely } from "kysely";
import { digestOf } from "../domain/digest.ts";
import { parseEstimateDocument } from "../domain/parse-estimate-document.ts";
import { inWorkspace } from "./in-workspace.ts";
import { createProject } from "./project-store.ts";
import type { Tables } from "./tables.ts";

/** The demo's id: fixed, so that two starts at once cannot load it twice. */
const demoProjectId = "00000000-0000-7000-8000-0000000000d1";

/**
 * Puts the demo project into a workspace that never held a project; one that did is left alone, even when all its
 * projects are deleted.
 *
 * @param file of the demo's document
 * @returns whether it was put there
 */
export async function loadDemo(db: Kysely<Tables>, workspaceId: string, file: URL): Promise<boolean> {
  const parsed = parseEstimateDocument(JSON.parse(await readFile(file, "utf8")));
  if ("faults" in parsed) throw new Error(`the demo breaks a rule: ${JSON.stringify(parsed.faults[0])}`);
  const { document } = parsed;
  try {
    return await inWorkspace(db, workspaceId, async (workspace) => {
      const held = await workspace.trx.selectFrom("project").select("project_id").limit(1).executeTakeFirst();
      if (held !== undefined) return false;
      const demo = { document, documentDigest: digestOf(document), author: "demo", note: "Demo" };
      await createProject(workspace, { id: demoProjectId, ...demo });
      return true;
    });
  } catch (error) {
    if (isDuplicate(error)) return false;
    throw error;
  }
}

/** Another start was faster. */
function isDuplicate(error: unknown): boolean {
  return error instanceof Error && "code" in error && error.code === "23505";
}
