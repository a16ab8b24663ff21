import type { FastifyPluginAsyncZod } from "fastify-type-provider-zod";
import { z } from "zod";
import { estimateDocumentSchema } from "../../domain/estimate-document.ts";
import { estimateResultSchema, samplingSchema } from "../../domain/estimate-result.ts";
import { simulationOptionsSchema } from "../../domain/simulation-options.ts";
import { readDocument } from "../../store/document-store.ts";
import { getEstimate, insertEstimate, listEstimates } from "../../store/estimate-store.ts";
import { getProject } from "../../store/project-store.ts";
import { abortOnDisconnect } from "../abort-on-disconnect.ts";
import { transact } from "../app-context.ts";
import type { AppContext } from "../app-context.ts";
import { pageOf, pageQuery, pageSchema } from "../page-of.ts";
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
import { noProject } from "./projects.ts";
import { noRevision } from "./project-revisions.ts";

const estimateFields = {
  id: z.uuid(),
  projectId: z.uuid(),
  revision: z.int().meta({ description: "The revision of the document it was computed from." }),
  createdAt: z.iso.datetime(),
  documentDigest: z.string(),
  resultDigest: z.string(),
  engineVersion: z.string(),
  seed: z.int(),
  draws: z.int(),
  sampling: samplingSchema,
};
const estimateSchema = z
  .strictObject(estimateFields)
  .meta({ id: "Estimate", description: "How a stored estimate was computed." });
const storedEstimateSchema = z
  .strictObject({ ...estimateFields, document: estimateDocumentSchema, result: estimateResultSchema })
  .meta({
    id: "StoredEstimate",
    description: "A stored estimate: document, seed, engine and result, never changed.",
  });

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

const createSchema = {
  operationId: "createEstimate",
  tags: ["estimates"],
  summary: "Simulate the project's document and keep the result",
  description: "The body may be left out: then the newest revision is computed with the defaults.",
  params: projectParams,
  body: newEstimateBody,
  response: {
    201: answer("The estimate.", storedEstimateSchema, locationHeader),
    ...problems("not-found", ...bodyProblems, ...simulationProblems),
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
  app.post(
    "/v1/projects/:projectId/estimates",
    { schema: createSchema },
    async ({ params: { projectId }, body: { revision, ...options } }, reply) => {
      const stored = await transact(context, (workspace) => readDocument(workspace, projectId, revision));
      if (stored === undefined)
        throw revision === undefined ? noProject(projectId) : noRevision(projectId, revision);
      // Between transactions: a connection is not held while the simulation runs.
      const result = await context.pool.run(stored.document, options, abortOnDisconnect(reply));
      const id = context.newId();
      const estimate = await transact(context, async (workspace) => {
        await insertEstimate(workspace, { id, projectId, revision: stored.revision, result });
        return getEstimate(workspace, projectId, id);
      });
      if (estimate === undefined) throw noProject(projectId);
      return reply.code(201).header("location", `/v1/projects/${projectId}/estimates/${id}`).send(estimate);
    },
  );

  app.get("/v1/projects/:projectId/estimates", { schema: listSchema }, ({ params: { projectId }, query }) =>
    pageOf(query, {
      read: (page) =>
        transact(context, async (workspace) => {
          if ((await getProject(workspace, projectId)) === undefined) throw noProject(projectId);
          return listEstimates(workspace, projectId, page);
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
      return estimate;
    },
  );
};
