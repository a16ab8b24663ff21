import type { FastifyReply, FastifyRequest } from "fastify";
import type { FastifyPluginAsyncZod } from "fastify-type-provider-zod";
import { z } from "zod";
import type { SimulationOptions } from "../../domain/simulation-options.ts";
import { simulationOptionsSchema } from "../../domain/simulation-options.ts";
import type { StoredDocument } from "../../store/document-store.ts";
import { readDocument } from "../../store/document-store.ts";
import { getEstimate, insertEstimate, listEstimates } from "../../store/estimate-store.ts";
import { getProject } from "../../store/project-store.ts";
import { abortOnDisconnect } from "../abort-on-disconnect.ts";
import { transact } from "../app-context.ts";
import type { AppContext } from "../app-context.ts";
import {
  estimateAddress,
  estimateSchema,
  shownEstimate,
  shownStoredEstimate,
  storedEstimateSchema,
} from "../estimate-schema.ts";
import { doneBefore, once } from "../idempotency.ts";
import { jobIdAt, noJob } from "../job-schema.ts";
import { addLongAnswers } from "../long-answers.ts";
import { pageOf, pageQuery, pageSchema } from "../page-of.ts";
import type { Preferences } from "../prefer.ts";
import { parsePreferences } from "../prefer.ts";
import { ProblemError } from "../problems/problem-error.ts";
import {
  answer,
  bodyProblems,
  estimateParams,
  locationHeader,
  problems,
  projectParams,
  simulationProblems,
  uuidForm,
} from "../route-schema.ts";
import {
  acceptedAnswer,
  answerAccepted,
  isForJob,
  jobAfterWait,
  simulationHeaders,
  submitJob,
} from "../submit-job.ts";
import { noProject } from "./projects.ts";
import { noRevision } from "./project-revisions.ts";

const newEstimateBody = simulationOptionsSchema
  .safeExtend({
    revision: z
      .int("revision is a whole number")
      .min(1, "revision is at least 1")
      .max(1e9, "revision is at most 1000000000")
      .optional()
      .meta({ description: "The revision to compute from; the newest unless given." }),
  })
  .meta({ examples: [{ draws: 10_000, seed: 1 }] });

/** The answer to an id that no estimate of the project has. */
export function noEstimate(projectId: string, id: string): ProblemError {
  return new ProblemError("not-found", `There is no estimate ${id} of a project ${projectId}.`);
}

interface Asked {
  readonly projectId: string;
  readonly revision: number | undefined;
  readonly options: SimulationOptions;
  /** Fires when nobody waits for the answer any more. */
  readonly gone: AbortSignal;
}

const createSchema = {
  operationId: "createEstimate",
  tags: ["estimates"],
  summary: "Simulate the project's document and keep the result",
  description: "The body may be left out: then the newest revision is computed with the defaults.",
  params: projectParams,
  headers: simulationHeaders,
  body: newEstimateBody,
  response: {
    201: answer("The estimate.", storedEstimateSchema, locationHeader),
    202: acceptedAnswer,
    ...problems("not-found", "key-used-otherwise", ...bodyProblems, ...simulationProblems),
  },
};

const listSchema = {
  operationId: "listEstimates",
  tags: ["estimates"],
  summary: "List the estimates, newest first",
  params: projectParams,
  querystring: pageQuery,
  response: { 200: answer("One page.", pageSchema(estimateSchema)), ...problems("not-found") },
};

const getSchema = {
  operationId: "getEstimate",
  tags: ["estimates"],
  summary: "Read an estimate",
  params: estimateParams,
  response: { 200: answer("The estimate.", storedEstimateSchema), ...problems("not-found") },
};

/** Estimates: what the engine answered for a revision, kept for ever. */
export const projectEstimateRoutes: FastifyPluginAsyncZod<{ context: AppContext }> = async (
  app,
  { context },
) => {
  const signalOf = addLongAnswers(app);

  async function keepNow(request: FastifyRequest, stored: StoredDocument, asked: Asked): Promise<string> {
    const { projectId, options, gone } = asked;
    // Between transactions: a connection is not held while the simulation runs.
    const result = await context.pool.run(stored.document, options, gone);
    const id = context.newId();
    return once(context, request, estimateAddress(projectId, id), async (workspace) => {
      const isKept = await insertEstimate(workspace, { id, projectId, revision: stored.revision, result });
      if (!isKept) throw noProject(projectId);
    });
  }

  async function answerKept(reply: FastifyReply, projectId: string, id: string): Promise<FastifyReply> {
    const estimate = await transact(context, (workspace) => getEstimate(workspace, projectId, id));
    if (estimate === undefined) throw noEstimate(projectId, id);
    return reply
      .code(201)
      .header("location", estimateAddress(projectId, id))
      .send(shownStoredEstimate(estimate));
  }

  /** Makes the estimate, or the job that will. @returns where it is */
  async function make(request: FastifyRequest, preferences: Preferences, asked: Asked): Promise<string> {
    const { projectId, revision, options } = asked;
    const stored = await transact(context, (workspace) => readDocument(workspace, projectId, revision));
    if (stored === undefined)
      throw revision === undefined ? noProject(projectId) : noRevision(projectId, revision);
    if (!isForJob(context, preferences, stored.document, options)) return keepNow(request, stored, asked);
    const job = { kind: "estimate", projectId, revision: stored.revision, options } as const;
    return submitJob(context, request, (jobId) => ({ jobId, ...job }));
  }

  app.post("/v1/projects/:projectId/estimates", { schema: createSchema }, async (request, reply) => {
    const { projectId } = request.params;
    const { revision, ...options } = request.body;
    const preferences = parsePreferences(request.headers.prefer);
    const signal = signalOf(reply);
    const at =
      (await doneBefore(context, request)) ??
      (await make(request, preferences, { projectId, revision, options, gone: abortOnDisconnect(reply) }));
    const jobId = jobIdAt(at);
    if (jobId === undefined) return answerKept(reply, projectId, at.slice(at.lastIndexOf("/") + 1));
    const job = await jobAfterWait(context, jobId, preferences, signal);
    if (job === undefined) throw noJob(jobId);
    if (job.estimateId === undefined) return answerAccepted(reply, job, preferences);
    return answerKept(reply, projectId, job.estimateId);
  });

  app.get("/v1/projects/:projectId/estimates", { schema: listSchema }, ({ params: { projectId }, query }) =>
    pageOf(query, {
      read: (page) =>
        transact(context, async (workspace) => {
          if ((await getProject(workspace, projectId)) === undefined) throw noProject(projectId);
          return (await listEstimates(workspace, projectId, page)).map(shownEstimate);
        }),
      keyOf: ({ id }) => id,
      form: uuidForm,
    }),
  );

  app.get(
    "/v1/projects/:projectId/estimates/:estimateId",
    { schema: getSchema },
    async ({ params: { projectId, estimateId } }) => {
      const estimate = await transact(context, (workspace) => getEstimate(workspace, projectId, estimateId));
      if (estimate === undefined) throw noEstimate(projectId, estimateId);
      return shownStoredEstimate(estimate);
    },
  );
};
