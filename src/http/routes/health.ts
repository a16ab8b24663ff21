import type { FastifyPluginAsyncZod } from "fastify-type-provider-zod";
import { z } from "zod";
import { listProjects } from "../../store/project-store.ts";
import { transact } from "../app-context.ts";
import type { AppContext } from "../app-context.ts";
import { ProblemError } from "../problems/problem-error.ts";
import { answer, problems } from "../route-schema.ts";

/** For whoever watches the service. */
export const healthRoutes: FastifyPluginAsyncZod<{ context: AppContext }> = async (app, { context }) => {
  app.get(
    "/livez",
    {
      // Lagging is no reason to end the process.
      config: { pressureHandler: () => undefined },
      schema: {
        operationId: "isAlive",
        tags: ["health"],
        summary: "Whether the process answers",
        response: { 200: answer("It does.", z.strictObject({ status: z.literal("alive") })), ...problems() },
      },
    },
    async () => ({ status: "alive" }),
  );

  app.get(
    "/readyz",
    {
      schema: {
        operationId: "isReady",
        tags: ["health"],
        summary: "Whether the database, its tables and the worker threads are there",
        response: {
          200: answer("They are.", z.strictObject({ status: z.literal("ready") })),
          ...problems("not-ready"),
        },
      },
    },
    async (request) => {
      if (!context.pool.isAlive()) throw notReady("There are no worker threads.");
      try {
        await transact(context, (workspace) => listProjects(workspace, { limit: 1 }));
      } catch (cause) {
        request.log.warn({ err: cause }, "not ready");
        throw notReady("The database or its tables cannot be reached.", cause);
      }
      return { status: "ready" };
    },
  );
};

function notReady(detail: string, cause?: unknown): ProblemError {
  return new ProblemError("not-ready", detail, { headers: { "retry-after": "5" }, cause });
}
