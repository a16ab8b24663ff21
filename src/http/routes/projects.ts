import type { FastifyPluginAsyncZod } from "fastify-type-provider-zod";
import { z } from "zod";
import { digestOf } from "../../domain/digest.ts";
import { estimateDocumentSchema } from "../../domain/estimate-document.ts";
import {
  createProject,
  deleteProject,
  getProject,
  listProjects,
  lockProject,
} from "../../store/project-store.ts";
import { transact } from "../app-context.ts";
import type { AppContext } from "../app-context.ts";
import { localAuthor } from "../author.ts";
import { entityTag } from "../entity-tag.ts";
import { exampleDocument } from "../example-document.ts";
import { idempotencyKeyHeader, once } from "../idempotency.ts";
import { pageOf, pageQuery, pageSchema } from "../page-of.ts";
import { ifMatchHeaders, requireMatch } from "../plugins/entity-tags.ts";
import { ProblemError } from "../problems/problem-error.ts";
import {
  answer,
  bodyProblems,
  conditionProblems,
  createdHeaders,
  problems,
  projectParams,
  taggedHeaders,
  uuidForm,
} from "../route-schema.ts";
import { revisionNoteSchema } from "../revision-schema.ts";

const projectSchema = z
  .strictObject({
    id: z.uuid(),
    title: z.string(),
    createdAt: z.iso.datetime(),
    updatedAt: z.iso.datetime(),
    revision: z.int().meta({ description: "Number of the newest revision; the entity tag is made of it." }),
    documentDigest: z.string().meta({ description: "SHA-256 of the document's canonical JSON (RFC 8785)." }),
  })
  .meta({ id: "Project", description: "A project, as its newest revision has it." });

const newProjectBody = z
  .strictObject({ document: estimateDocumentSchema, note: revisionNoteSchema.optional() })
  .meta({ examples: [{ document: exampleDocument, note: "As first seen" }] });

/** The answer to an id that no live project of the workspace has. */
export function noProject(id: string): ProblemError {
  return new ProblemError("not-found", `There is no project ${id}.`);
}

const createSchema = {
  operationId: "createProject",
  tags: ["projects"],
  summary: "Start a project from a document",
  headers: z.looseObject(idempotencyKeyHeader),
  body: newProjectBody,
  response: {
    201: answer("The project.", projectSchema, createdHeaders),
    ...problems("not-found", "key-used-otherwise", ...bodyProblems),
  },
};

const listSchema = {
  operationId: "listProjects",
  tags: ["projects"],
  summary: "List the projects, newest first",
  querystring: pageQuery,
  response: { 200: answer("One page.", pageSchema(projectSchema)), ...problems() },
};

const getSchema = {
  operationId: "getProject",
  tags: ["projects"],
  summary: "Read a project",
  params: projectParams,
  response: { 200: answer("The project.", projectSchema, taggedHeaders), ...problems("not-found") },
};

const deleteSchema = {
  operationId: "deleteProject",
  tags: ["projects"],
  summary: "Delete a project",
  description: "Hides the project, its revisions and its estimates for good.",
  params: projectParams,
  headers: ifMatchHeaders,
  response: {
    204: z.null().describe("Deleted."),
    ...problems("not-found", "foreign-origin", ...conditionProblems),
  },
};

/** Projects: made from a document, listed, read, deleted. */
export const projectRoutes: FastifyPluginAsyncZod<{ context: AppContext }> = async (app, { context }) => {
  app.post("/v1/projects", { schema: createSchema }, async (request, reply) => {
    const { document, note } = request.body;
    const id = context.newId();
    const location = await once(context, request, `/v1/projects/${id}`, (workspace) => {
      const documentDigest = digestOf(document);
      return createProject(workspace, { id, document, documentDigest, author: localAuthor, note });
    });
    const made = location.slice(location.lastIndexOf("/") + 1);
    const project = await transact(context, (workspace) => getProject(workspace, made));
    if (project === undefined) throw noProject(made);
    return reply
      .code(201)
      .headers({ location, etag: entityTag(project.revision) })
      .send(project);
  });

  app.get("/v1/projects", { schema: listSchema }, ({ query }) =>
    pageOf(query, {
      read: (page) => transact(context, (workspace) => listProjects(workspace, page)),
      keyOf: ({ id }) => id,
      form: uuidForm,
    }),
  );

  app.get("/v1/projects/:projectId", { schema: getSchema }, async ({ params: { projectId } }, reply) => {
    const project = await transact(context, (workspace) => getProject(workspace, projectId));
    if (project === undefined) throw noProject(projectId);
    return reply.header("etag", entityTag(project.revision)).send(project);
  });

  app.delete("/v1/projects/:projectId", { schema: deleteSchema }, async (request, reply) => {
    const { projectId } = request.params;
    await transact(context, async (workspace) => {
      await lockProject(workspace, projectId);
      const project = await getProject(workspace, projectId);
      if (project === undefined) throw noProject(projectId);
      requireMatch(request, project.revision);
      if (!(await deleteProject(workspace, projectId))) throw noProject(projectId);
    });
    return reply.code(204).send(null);
  });
};
