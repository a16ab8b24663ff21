import { readFileSync } from "node:fs";
import { v7 } from "uuid";
import { digestOf } from "../../src/domain/digest.ts";
import type { EstimateDocument } from "../../src/domain/estimate-document.ts";
import type { SimulationOptions } from "../../src/domain/simulation-options.ts";
import { createJob, findJob, requestCancel } from "../../src/store/job-store.ts";
import type { Job } from "../../src/store/job-store.ts";
import { newProject, newWorkspace } from "../store/sample-estimate.ts";
import type { FreshDatabase } from "../support/fresh-database.ts";
import { until } from "./until.ts";

/** The demo: a thread works on it for seconds at 100,000 draws. */
export const demo = JSON.parse(
  readFileSync(new URL("../../seed/demo/barn-stored-single.json", import.meta.url), "utf8"),
) as EstimateDocument;

/** A workspace to ask for jobs in. */
export async function openJobBench(database: FreshDatabase) {
  const within = await newWorkspace(database);
  const find = async (jobId: string): Promise<Job> => {
    const job = await within((workspace) => findJob(workspace, jobId));
    if (job === undefined) throw new Error(`job ${jobId} is gone`);
    return job;
  };
  return {
    within,
    find,
    newSimulation: async (document: EstimateDocument, options: SimulationOptions): Promise<string> => {
      const jobId = v7();
      await within((workspace) => createJob(workspace, { jobId, kind: "simulation", document, options }));
      return jobId;
    },
    newEstimate: (document: EstimateDocument, options: SimulationOptions) =>
      within(async (workspace) => {
        const revision = { document, documentDigest: digestOf(document), author: "the owner" };
        const [jobId, projectId] = [v7(), await newProject(workspace, revision)];
        await createJob(workspace, { jobId, kind: "estimate", projectId, revision: 1, options });
        return { jobId, projectId };
      }),
    cancel: (jobId: string) => within((workspace) => requestCancel(workspace, jobId)),
    /** Waits for a state. @returns the job in it */
    untilState: (jobId: string, state: Job["state"]): Promise<Job> =>
      until(`job in state ${state}`, async () => {
        const job = await find(jobId);
        if (job.finishedAt !== undefined && job.state !== state) {
          throw new Error(
            `the job ended as ${JSON.stringify({ ...job, result: undefined, partial: undefined })}`,
          );
        }
        return job.state === state && job;
      }),
  };
}
