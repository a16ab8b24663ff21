import type { FastifyRequest } from "fastify";
import type { FastifyPluginAsyncZod } from "fastify-type-provider-zod";
import { z } from "zod";
import { digestOf } from "../../domain/digest.ts";
import { estimateDocumentSchema } from "../../domain/estimate-document.ts";
import { DomainError } from "../../numeric/domain-error.ts";
import { listRevisions, putDocument, readDocument } from "../../store/document-store.ts";
import type { NewRevision, Revision } from "../../store/document-store.ts";
import type { Workspace } from "../../store/in-workspace.ts";
import { getProject } from "../../store/project-store.ts";
import { transact } from "../app-context.ts";
import type { AppContext } from "../app-context.ts";
import { localAuthor } from "../author.ts";
import { entityTag } from "../entity-tag.ts";
import { ifMatchHeaders, requireMatch } from "../plugins/entity-tags.ts";
import { revisionNoteSchema, revisionSchema } from "../revision-schema.ts";
import {
  answer,
  bodyProblems,
  conditionProblems,
  problems,
  projectParams,
  taggedHeaders,
} from "../route-schema.ts";
import { noProject } from "./projects.ts";

/** A project's document: read and written whole. */
export const projectDocumentRoutes: FastifyPluginAsyncZod<{ context: AppContext }> = async (
  app,
  { context },
) => {
  app.get(
    "/v1/projects/:projectId/document",
    {
      schema: {
        operationId: "readDocument",
        tags: ["documents"],
        summary: "Read the document",
        description: "The same JSON value that was written.",
        params: projectParams,
        response: {
          200: answer("The document.", estimateDocumentSchema, taggedHeaders),
          ...problems("not-found"),
        },
      },
    },
    async ({ params: { projectId } }, reply) => {
      const stored = await transact(context, (workspace) => readDocument(workspace, projectId));
      if (stored === undefined) throw noProject(projectId);
      return reply.header("etag", entityTag(stored.revision)).send(stored.document);
    },
  );

  app.put(
    "/v1/projects/:projectId/document",
    {
      schema: {
        operationId: "putDocument",
        tags: ["documents"],
        summary: "Write the document",
        description: "Adds a revision. The earlier ones stay readable.",
        params: projectParams,
        headers: ifMatchHeaders,
        querystring: z.strictObject({ note: revisionNoteSchema.optional() }),
        body: estimateDocumentSchema,
        response: {
          200: answer("The new revision.", revisionSchema, taggedHeaders),
          ...problems("not-found", ...bodyProblems, ...conditionProblems),
        },
      },
    },
    async (request, reply) => {
      const { body: document, query, params } = request;
      const written = { document, documentDigest: digestOf(document), author: localAuthor, note: query.note };
      const revision = await transact(context, (workspace) =>
        write(workspace, request, params.projectId, written),
      );
      return reply.header("etag", entityTag(revision.revision)).send(revision);
    },
  );
};

const mostAttempts = 100;

/**
 * Writes the next revision if If-Match names the newest one at that moment. A writer in between makes it
 * look again: a tag no longer matches then, while `*` matches still.
 */
async function write(
  workspace: Workspace,
  request: FastifyRequest,
  projectId: string,
  written: NewRevision,
): Promise<Revision> {
  for (let attempt = 1; ; attempt += 1) {
    const project = await getProject(workspace, projectId);
    if (project === undefined) throw noProject(projectId);
    requireMatch(request, project.revision);
    try {
      await putDocument(workspace, projectId, { ...written, expectedRevision: project.revision });
    } catch (error) {
      if (!isConflict(error) || attempt === mostAttempts) throw error;
      continue;
    }
    const [newest] = await listRevisions(workspace, projectId, { limit: 1 });
    if (newest === undefined) throw noProject(projectId);
    return newest;
  }
}

function isConflict(error: unknown): boolean {
  return error instanceof DomainError && error.code === "revision-conflict";
}
