import type { FastifyPluginAsyncZod } from "fastify-type-provider-zod";
import { z } from "zod";
import { measuredSchema } from "../../domain/measured.ts";
import { optionsOf } from "../../domain/simulation-options.ts";
import { getEstimate } from "../../store/estimate-store.ts";
import { abortOnDisconnect } from "../abort-on-disconnect.ts";
import { transact } from "../app-context.ts";
import type { AppContext } from "../app-context.ts";
import { engineChangesSchema } from "../estimate-schema.ts";
import { replayOf } from "../replay-of.ts";
import { answer, estimateParams, problems, simulationProblems } from "../route-schema.ts";
import { noEstimate } from "./project-estimates.ts";

const jsonScalar = z.union([z.number(), z.string(), z.boolean(), z.null()]);

const mainFigureSchema = z
  .strictObject({
    name: z.string(),
    pointer: z.string().meta({ description: "JSON Pointer into the result." }),
    stored: measuredSchema,
    today: measuredSchema,
    standardErrorsApart: z.number().optional().meta({
      description: "Their distance in joint standard errors; absent where neither has any.",
    }),
  })
  .meta({ id: "FigureThenAndNow", description: "A main figure that the two give differently." });

const replaySchema = z
  .strictObject({
    matches: z
      .boolean()
      .meta({ description: "Whether both digests are the same: every figure, to the last digit." }),
    replayable: z.boolean().meta({ description: "Whether they must be: one engine computed both." }),
    explanation: z.string(),
    storedEngineVersion: z.string(),
    engineVersion: z.string().meta({ description: "Of the engine that recomputed it." }),
    engineChanges: engineChangesSchema,
    storedDigest: z.string(),
    recomputedDigest: z.string(),
    mainFigures: z.array(mainFigureSchema).meta({ description: "The main figures that differ." }),
    differenceCount: z.int().meta({ description: "Places in the result that differ." }),
    differences: z
      .array(
        z.strictObject({
          pointer: z.string().meta({ description: "JSON Pointer into the result." }),
          stored: jsonScalar.optional(),
          recomputed: jsonScalar.optional(),
        }),
      )
      .meta({ description: "The first 100 of them; a side that has nothing there is left out." }),
  })
  .meta({ id: "Replay", description: "A stored estimate against the same computation now." });

/** Replay: a stored estimate computed again and compared. */
export const estimateReplayRoutes: FastifyPluginAsyncZod<{ context: AppContext }> = async (
  app,
  { context },
) => {
  app.post(
    "/v1/projects/:projectId/estimates/:estimateId/replay",
    {
      schema: {
        operationId: "replayEstimate",
        tags: ["estimates"],
        summary: "Compute a stored estimate again and compare",
        description:
          "Changes nothing. The body is empty. What another version of the engine computed cannot be replayed to the last " +
          "digit: then the answer says what has changed in the engine since, and what differs when the document is simulated today.",
        params: estimateParams,
        response: {
          200: answer("How the two compare.", replaySchema),
          ...problems("not-found", "foreign-origin", ...simulationProblems),
        },
      },
    },
    async ({ params: { projectId, estimateId } }, reply) => {
      const stored = await transact(context, (workspace) => getEstimate(workspace, projectId, estimateId));
      if (stored === undefined) throw noEstimate(projectId, estimateId);
      const signal = abortOnDisconnect(reply);
      return replayOf(
        stored.result,
        await context.pool.run(stored.document, optionsOf(stored.result.engine), signal),
      );
    },
  );
};
