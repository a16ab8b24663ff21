import type { FastifyPluginAsyncZod } from "fastify-type-provider-zod";
import { estimateDocumentSchema } from "../../domain/estimate-document.ts";
import { estimateResultSchema } from "../../domain/estimate-result.ts";
import { simulationOptionsSchema } from "../../domain/simulation-options.ts";
import { abortOnDisconnect } from "../abort-on-disconnect.ts";
import type { AppContext } from "../app-context.ts";
import { exampleDocument } from "../example-document.ts";
import { answer, bodyProblems, problems, simulationProblems } from "../route-schema.ts";

const simulationBody = simulationOptionsSchema
  .safeExtend({ document: estimateDocumentSchema })
  .meta({ examples: [{ document: exampleDocument, draws: 10_000, seed: 1 }] });

/** Simulations: a document in, a result out, nothing kept. */
export const simulationRoutes: FastifyPluginAsyncZod<{ context: AppContext }> = async (app, { context }) => {
  app.post(
    "/v1/simulations",
    {
      schema: {
        operationId: "simulate",
        tags: ["simulations"],
        summary: "Simulate a document",
        description:
          "Computes what the restoration costs, takes and is worth. The same document, draws, seed and sampling give the same result, to the last digit. Nothing is stored.",
        body: simulationBody,
        response: {
          200: answer("The result.", estimateResultSchema),
          ...problems(...bodyProblems, ...simulationProblems),
        },
      },
    },
    async ({ body: { document, ...options } }, reply) => {
      reply.header("cache-control", "no-store");
      return context.pool.run(document, options, abortOnDisconnect(reply));
    },
  );
};
