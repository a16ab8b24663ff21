import { Readable } from "node:stream";
import type { FastifyPluginAsyncZod } from "fastify-type-provider-zod";
import { z } from "zod";
import { findJob, listJobs, requestCancel } from "../../store/job-store.ts";
import type { Job } from "../../store/job-store.ts";
import { transact } from "../app-context.ts";
import type { AppContext } from "../app-context.ts";
import { entityTag } from "../entity-tag.ts";
import { eventStream } from "../event-stream.ts";
import { jobSchema, jobWithFiguresSchema, noJob, shownJob } from "../job-schema.ts";
import { isEnded, jobStates } from "../job-states.ts";
import { addLongAnswers } from "../long-answers.ts";
import { pageOf, pageQuery, pageSchema } from "../page-of.ts";
import { answer, jobParams, problems, taggedHeaders, uuidForm } from "../route-schema.ts";
import { wholeNumberParameter } from "../whole-number-parameter.ts";

const beatMs = 15_000;
const graceMs = 1_000;

const listSchema = {
  operationId: "listJobs",
  tags: ["jobs"],
  summary: "List the jobs, newest first",
  querystring: pageQuery,
  response: { 200: answer("One page.", pageSchema(jobSchema)), ...problems() },
};

const getSchema = {
  operationId: "getJob",
  tags: ["jobs"],
  summary: "Read a job with the figures there are so far",
  params: jobParams,
  response: { 200: answer("The job.", jobWithFiguresSchema, taggedHeaders), ...problems("not-found") },
};

const cancelSchema = {
  operationId: "cancelJob",
  tags: ["jobs"],
  summary: "Cancel a job",
  description:
    "A job that waits is cancelled at once, one that runs within a second. One that has ended stays as it is. The body is empty.",
  params: jobParams,
  response: {
    200: answer("The job, ended.", jobWithFiguresSchema),
    202: answer("The job, still running: it will be told to stop.", jobWithFiguresSchema),
    ...problems("not-found", "foreign-origin"),
  },
};

const eventsSchema = {
  operationId: "followJob",
  tags: ["jobs"],
  summary: "Follow a job to its end",
  description:
    "Server-sent events: the job as it is, then again after every change until it has ended. The id of an event is the " +
    "job's revision; its data is what reading the job gives. A client that reads slowly or comes back with Last-Event-ID " +
    "gets the newest state and not every one in between.",
  params: jobParams,
  headers: z.looseObject({
    "last-event-id": wholeNumberParameter("an event's id", 0, Number.MAX_SAFE_INTEGER)
      .optional()
      .meta({ description: "The id of the last event received.", examples: ["7"] }),
  }),
  response: {
    200: {
      description: "The events.",
      // Unknown to the type checker, because it is sent as a stream.
      content: { "text/event-stream": { schema: z.unknown().meta({ type: "string" }) } },
    },
    204: z
      .null()
      .describe("The job has ended, and the client has had its last event: it need not come back."),
    ...problems("not-found"),
  },
};

/** Jobs: simulations that run apart from the request that asked for them. */
export const jobRoutes: FastifyPluginAsyncZod<{ context: AppContext }> = async (app, { context }) => {
  const signalOf = addLongAnswers(app);

  async function jobOf(jobId: string): Promise<Job> {
    const job = await transact(context, (workspace) => findJob(workspace, jobId));
    if (job === undefined) throw noJob(jobId);
    return job;
  }

  app.get("/v1/jobs", { schema: listSchema }, async ({ query }) => {
    const { items, ...rest } = await pageOf(query, {
      read: (page) => transact(context, (workspace) => listJobs(workspace, page)),
      keyOf: ({ jobId }) => jobId,
      form: uuidForm,
    });
    return { items: items.map((job) => shownJob(job)), ...rest };
  });

  app.get("/v1/jobs/:jobId", { schema: getSchema }, async ({ params: { jobId } }, reply) => {
    const job = await jobOf(jobId);
    return reply.header("etag", entityTag(job.revision)).send(shownJob(job));
  });

  app.post("/v1/jobs/:jobId/cancel", { schema: cancelSchema }, async ({ params: { jobId } }, reply) => {
    const job = await transact(context, (workspace) => requestCancel(workspace, jobId));
    if (job === undefined) throw noJob(jobId);
    return reply.code(isEnded(job) ? 200 : 202).send(shownJob(job));
  });

  app.get("/v1/jobs/:jobId/events", { schema: eventsSchema }, async (request, reply) => {
    const { jobId } = request.params;
    const after = request.headers["last-event-id"] ?? 0;
    const job = await jobOf(jobId);
    if (isEnded(job) && after >= job.revision) return reply.code(204).send(null);
    const signal = signalOf(reply);
    // A client that does not take what is left to send is cut off, lest the closing service wait for it.
    signal.addEventListener("abort", () => setTimeout(() => reply.raw.destroy(), graceMs).unref());
    const states = jobStates(context, jobId, { after, beatMs, signal });
    return reply
      .type("text/event-stream")
      .headers({ "cache-control": "no-store", connection: "close" })
      .send(Readable.from(eventStream(states)));
  });
};
