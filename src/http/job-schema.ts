import { z } from "zod";
import { estimateResultSchema } from "../domain/estimate-result.ts";
import { simulationOptionsSchema } from "../domain/simulation-options.ts";
import { DomainError } from "../numeric/domain-error.ts";
import type { JobSummary } from "../store/job-store.ts";
import { estimateAddress } from "./estimate-schema.ts";
import { problemBody, problemSchema } from "./problems/problem-body.ts";
import { ProblemError } from "./problems/problem-error.ts";
import { problemOf } from "./problems/problem-of.ts";

const jobFields = {
  id: z.uuid(),
  kind: z.enum(["simulation", "estimate"]),
  options: simulationOptionsSchema.meta({ description: "As asked." }),
  state: z
    .enum(["waiting", "running", "done", "failed", "cancelled"])
    .meta({ description: "The last three are ends, and stay." }),
  progress: z.number().meta({ description: "The share of the draws made, from 0 to 1; never falls." }),
  revision: z.int().meta({ description: "Goes up with every change that can be seen here." }),
  cancelRequested: z.boolean().meta({ description: "Whether whoever runs it has been told to stop." }),
  attempts: z.int().meta({ description: "How often a worker has begun it." }),
  createdAt: z.iso.datetime(),
  startedAt: z.iso.datetime().optional(),
  finishedAt: z.iso.datetime().optional(),
  projectId: z.uuid().optional().meta({ description: "Of an estimate: the project." }),
  projectRevision: z
    .int()
    .optional()
    .meta({ description: "Of an estimate: the revision it is computed from." }),
  estimateId: z.uuid().optional().meta({ description: "Of an estimate that is done." }),
  problem: problemSchema.optional().meta({ description: "Why it failed." }),
  links: z.strictObject({
    self: z.string(),
    events: z.string().meta({ description: "Its changes as server-sent events." }),
    estimate: z.string().optional().meta({ description: "The estimate that was kept." }),
  }),
};

/** A job in a list. */
export const jobSchema = z
  .strictObject(jobFields)
  .meta({ id: "Job", description: "A simulation that runs apart from the request that asked for it." });

/** A job with its figures. */
export const jobWithFiguresSchema = z
  .strictObject({
    ...jobFields,
    partial: estimateResultSchema.optional().meta({
      description: "Of a job that is not done: the result of the draws made so far, `engine.draws` of them.",
    }),
    result: estimateResultSchema.optional().meta({ description: "When it is done." }),
  })
  .meta({ id: "JobWithFigures", description: "A job with the figures there are so far." });

/** What the service shows of a job. */
export function shownJob<T extends JobSummary>({ jobId, problem, ...job }: T) {
  const { projectId, estimateId } = job;
  return {
    id: jobId,
    ...job,
    ...(problem && { problem: problemBody(problemOf(new DomainError(problem.code, problem.detail))) }),
    links: {
      self: jobAddress(jobId),
      events: `${jobAddress(jobId)}/events`,
      ...(projectId && estimateId && { estimate: estimateAddress(projectId, estimateId) }),
    },
  };
}

/** The answer to an id that no job of the workspace has. */
export function noJob(id: string): ProblemError {
  return new ProblemError("not-found", `There is no job ${id}.`);
}

/** Where a job is. */
export function jobAddress(jobId: string): string {
  return `/v1/jobs/${jobId}`;
}

/** The id of the job at an address; undefined when something else is there. */
export function jobIdAt(address: string): string | undefined {
  return /^\/v1\/jobs\/([^/]+)$/.exec(address)?.[1];
}
