import type { FastifyPluginAsyncZod } from "fastify-type-provider-zod";
import { estimateDocumentSchema } from "../../domain/estimate-document.ts";
import { estimateResultSchema } from "../../domain/estimate-result.ts";
import { simulationOptionsSchema } from "../../domain/simulation-options.ts";
import { abortOnDisconnect } from "../abort-on-disconnect.ts";
import type { AppContext } from "../app-context.ts";
import { exampleDocument } from "../example-document.ts";
import { jobIdAt, noJob } from "../job-schema.ts";
import { addLongAnswers } from "../long-answers.ts";
import { parsePreferences } from "../prefer.ts";
import { answer, bodyProblems, problems, simulationProblems } from "../route-schema.ts";
import {
  acceptedAnswer,
  answerAccepted,
  isForJob,
  jobAfterWait,
  simulationHeaders,
  submitJob,
} from "../submit-job.ts";

const simulationBody = simulationOptionsSchema
  .safeExtend({ document: estimateDocumentSchema })
  .meta({ examples: [{ document: exampleDocument, draws: 10_000, seed: 1 }] });

/** Simulations: a document in, a result out, nothing kept. */
export const simulationRoutes: FastifyPluginAsyncZod<{ context: AppContext }> = async (app, { context }) => {
  const signalOf = addLongAnswers(app);
  app.post(
    "/v1/simulations",
    {
      schema: {
        operationId: "simulate",
        tags: ["simulations"],
        summary: "Simulate a document",
        description:
          "Computes what the restoration costs, takes and is worth. The same document, draws, seed and sampling give the same result, to the last digit. Nothing is stored, unless it becomes a job.",
        headers: simulationHeaders,
        body: simulationBody,
        response: {
          200: answer("The result.", estimateResultSchema),
          202: acceptedAnswer,
          ...problems("key-used-otherwise", ...bodyProblems, ...simulationProblems),
        },
      },
    },
    async (request, reply) => {
      const { document, ...options } = request.body;
      const preferences = parsePreferences(request.headers.prefer);
      reply.header("cache-control", "no-store");
      if (!isForJob(context, preferences, document, options))
        return context.pool.run(document, options, abortOnDisconnect(reply));
      const signal = signalOf(reply);
      const at = await submitJob(context, request, (jobId) => ({
        jobId,
        kind: "simulation",
        document,
        options,
      }));
      const jobId = jobIdAt(at) ?? "";
      const job = await jobAfterWait(context, jobId, preferences, signal);
      if (job === undefined) throw noJob(jobId);
      return job.result ?? answerAccepted(reply, job, preferences);
    },
  );
};
