import type { FastifyReply, FastifyRequest } from "fastify";
import { z } from "zod";
import type { EstimateDocument } from "../domain/estimate-document.ts";
import type { SimulationOptions } from "../domain/simulation-options.ts";
import { DomainError } from "../numeric/domain-error.ts";
import { countWaiting, createJob, findJob } from "../store/job-store.ts";
import type { Job, NewJob } from "../store/job-store.ts";
import { transact } from "./app-context.ts";
import type { AppContext } from "./app-context.ts";
import { idempotencyKeyHeader, once } from "./idempotency.ts";
import { jobAddress, jobWithFiguresSchema, shownJob } from "./job-schema.ts";
import { jobStates } from "./job-states.ts";
import { longestWaitSeconds } from "./prefer.ts";
import type { Preferences } from "./prefer.ts";
import { answer, locationHeader } from "./route-schema.ts";

/** A simulation predicted to take longer becomes a job. */
const longestAnswerMs = 300;

/** Headers of a request that simulates. */
export const simulationHeaders = z.looseObject({
  ...idempotencyKeyHeader,
  prefer: z
    .string()
    .optional()
    .meta({
      description:
        "RFC 7240. `respond-async`: answer 202 with a job at once. `wait=N`: where it becomes a job, wait up to N seconds " +
        `(at most ${longestWaitSeconds}) for the result before answering with the job.`,
      examples: ["respond-async", "wait=10"],
    }),
});

/** The answer that a job was made. */
export const acceptedAnswer = answer(
  "The result comes later, from this job: the client preferred it so, or the simulation is predicted to take over " +
    `${longestAnswerMs} ms.`,
  jobWithFiguresSchema,
  {
    ...locationHeader,
    "Preference-Applied": { type: "string", description: "What was done of what Prefer asked for." },
  },
);

/** Whether a simulation is to be a job rather than an answer. */
export function isForJob(
  { predictor }: AppContext,
  { respondAsync }: Preferences,
  document: EstimateDocument,
  options: SimulationOptions,
): boolean {
  return respondAsync || predictor.predictedMs(document, options) > longestAnswerMs;
}

/**
 * Makes a job, unless an earlier request with the same key did.
 *
 * @returns where it is, or whatever else the earlier request made
 * @throws {DomainError} `jobs-full` before anything is stored when too many wait already
 */
export async function submitJob(
  context: AppContext,
  request: FastifyRequest,
  asked: (jobId: string) => NewJob,
): Promise<string> {
  const jobId = context.newId();
  return once(context, request, jobAddress(jobId), async (workspace) => {
    const waiting = await countWaiting(workspace.trx);
    if (waiting >= context.mostJobsWaiting)
      throw new DomainError("jobs-full", `${waiting} jobs wait already, the most there may be`);
    await createJob(workspace, asked(jobId));
  });
}

/**
 * Waits for a job's end, but no longer than the client would.
 *
 * @returns the job as it is then; undefined when there is none
 */
export async function jobAfterWait(
  context: AppContext,
  jobId: string,
  { waitSeconds = 0 }: Preferences,
  signal: AbortSignal,
): Promise<Job | undefined> {
  let newest = await transact(context, (workspace) => findJob(workspace, jobId));
  if (newest === undefined || waitSeconds === 0) return newest;
  const until = AbortSignal.any([signal, AbortSignal.timeout(waitSeconds * 1_000)]);
  const after = newest.revision;
  for await (const job of jobStates(context, jobId, { after, beatMs: 1_000, signal: until })) {
    newest = job ?? newest;
  }
  return newest;
}

/** Answers with a job that has not come to its result yet. */
export function answerAccepted(
  reply: FastifyReply,
  job: Job,
  { respondAsync, waitSeconds }: Preferences,
): FastifyReply {
  const applied = [
    ...(respondAsync ? ["respond-async"] : []),
    ...(waitSeconds === undefined ? [] : [`wait=${waitSeconds}`]),
  ];
  if (applied.length > 0) reply.header("preference-applied", applied.join(", "));
  return reply.code(202).header("location", jobAddress(job.jobId)).send(shownJob(job));
}
