import type { FastifyPluginAsyncZod } from "fastify-type-provider-zod";
import { estimateDocumentSchema } from "../../domain/estimate-document.ts";
import { listRevisions, readDocument } from "../../store/document-store.ts";
import { getProject } from "../../store/project-store.ts";
import { transact } from "../app-context.ts";
import type { AppContext } from "../app-context.ts";
import { entityTag } from "../entity-tag.ts";
import { pageOf, pageQuery, pageSchema } from "../page-of.ts";
import { ProblemError } from "../problems/problem-error.ts";
import { revisionSchema } from "../revision-schema.ts";
import { answer, problems, projectParams, revisionParams, taggedHeaders } from "../route-schema.ts";
import { noProject } from "./projects.ts";

/** The answer to a number that no revision of the project has. */
export function noRevision(projectId: string, revision: number): ProblemError {
  return new ProblemError("not-found", `There is no revision ${revision} of a project ${projectId}.`);
}

/** What a project's document was: every revision stays readable. */
export const projectRevisionRoutes: FastifyPluginAsyncZod<{ context: AppContext }> = async (
  app,
  { context },
) => {
  app.get(
    "/v1/projects/:projectId/revisions",
    {
      schema: {
        operationId: "listRevisions",
        tags: ["documents"],
        summary: "List the revisions, newest first",
        params: projectParams,
        querystring: pageQuery,
        response: { 200: answer("One page.", pageSchema(revisionSchema)), ...problems("not-found") },
      },
    },
    ({ params: { projectId }, query }) =>
      pageOf(query, {
        read: ({ limit, after }) =>
          transact(context, async (workspace) => {
            if ((await getProject(workspace, projectId)) === undefined) throw noProject(projectId);
            const before = after === undefined ? undefined : Number(after);
            return listRevisions(workspace, projectId, { limit, before });
          }),
        keyOf: ({ revision }) => String(revision),
        form: /^[1-9]\d{0,8}$/,
      }),
  );

  app.get(
    "/v1/projects/:projectId/revisions/:revision/document",
    {
      schema: {
        operationId: "readRevision",
        tags: ["documents"],
        summary: "Read the document as it was",
        params: revisionParams,
        response: {
          200: answer("The document of that revision.", estimateDocumentSchema, taggedHeaders),
          ...problems("not-found"),
        },
      },
    },
    async ({ params: { projectId, revision } }, reply) => {
      const stored = await transact(context, (workspace) => readDocument(workspace, projectId, revision));
      if (stored === undefined) throw noRevision(projectId, revision);
      return reply.header("etag", entityTag(revision)).send(stored.document);
    },
  );
};
