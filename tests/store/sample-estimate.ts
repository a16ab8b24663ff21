import { createHash } from "node:crypto";
import { v7 } from "uuid";
import type { EstimateDocument } from "../../src/domain/estimate-document.ts";
import type { EstimateResult, Measured, Summary } from "../../src/domain/estimate-result.ts";
import { createProject } from "../../src/store/project-store.ts";
import type { NewRevision } from "../../src/store/document-store.ts";
import { inWorkspace } from "../../src/store/in-workspace.ts";
import type { Workspace } from "../../src/store/in-workspace.ts";
import type { FreshDatabase } from "../support/fresh-database.ts";

/** A small document; the stores look at its format and title only. */
export function sampleDocument(title = "Corvid 175, barn find"): EstimateDocument {
  return {
    format: "restoration-estimate/1",
    title,
    currency: "EUR",
    pricesAsOf: "2026-06",
    vehicle: { kind: "motorcycle", make: "Corvid", model: "175", year: 1958 },
    labour: { ownHourValue: 0, ownHoursPerWeek: 8, shopRates: {} },
    drivers: [],
    suppliers: [],
    parts: [],
    findings: [],
    overheads: [],
  };
}

/** Any 64 hex digits do for the stores; these tell one text from another. */
export function digestOf(text: string): string {
  return createHash("sha256").update(text).digest("hex");
}

export function sampleRevision(title?: string): NewRevision {
  const document = sampleDocument(title);
  return { document, documentDigest: digestOf(document.title), author: "the owner" };
}

/** A well-formed result; the stores read its engine and digests only. */
export function sampleResult(documentDigest: string, seed = 1): EstimateResult {
  const figure: Measured = { value: 1, standardError: 0 };
  const range = { mean: figure, p10: figure, p50: figure, p80: figure, p90: figure };
  const summary: Summary = { ...range, sd: figure, p5: figure, p25: figure, p75: figure, p95: figure };
  return {
    engine: {
      version: "1",
      seed,
      draws: 10_000,
      sampling: "stratified",
      replicates: 16,
      stopped: "asked",
      detail: "full",
    },
    documentDigest,
    resultDigest: digestOf(`${documentDigest} ${seed}`),
    sumOfTypicals: 1,
    restoration: { cash: summary, withOwnHours: summary, toGo: summary },
    carrying: summary,
    allIn: summary,
    weeks: summary,
    ownHours: summary,
    shopHours: summary,
    completeProbability: figure,
    lines: [],
    parts: [],
    suppliers: [],
    curve: [],
  };
}

/** Makes a workspace. @returns what runs work inside it */
export async function newWorkspace(database: FreshDatabase) {
  const id = v7();
  const within = <T>(work: (workspace: Workspace) => Promise<T>) => inWorkspace(database.db, id, work);
  await within(({ trx }) => trx.insertInto("workspace").values({ workspace_id: id, name: "Test" }).execute());
  return within;
}

/** Makes a project with the sample document. @returns its id */
export async function newProject(workspace: Workspace, revision = sampleRevision()): Promise<string> {
  const id = v7();
  await createProject(workspace, { id, ...revision });
  return id;
}
