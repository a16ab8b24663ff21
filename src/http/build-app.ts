import { fastify } from "fastify";
import type { FastifyInstance, FastifySerializerCompiler, FastifyServerOptions } from "fastify";
import type { AppContext } from "./app-context.ts";
import { addApiDocumentation } from "./openapi/api-documentation.ts";
import { addEntityTags } from "./plugins/entity-tags.ts";
import { addJsonBody, largestBodyBytes } from "./plugins/json-body.ts";
import { addLocalOnly } from "./plugins/local-only.ts";
import { addOverload } from "./plugins/overload.ts";
import { addProblemDetails, answerProblem } from "./plugins/problem-details.ts";
import { addRefuseUndeclared } from "./plugins/refuse-undeclared.ts";
import { addSecurityHeaders } from "./plugins/security-headers.ts";
import { answerUnreadable } from "./plugins/unreadable-requests.ts";
import { estimateReplayRoutes } from "./routes/estimate-replay.ts";
import { healthRoutes } from "./routes/health.ts";
import { jobRoutes } from "./routes/jobs.ts";
import { pageRoutes } from "./routes/pages.ts";
import { projectDocumentRoutes } from "./routes/project-document.ts";
import { projectEstimateRoutes } from "./routes/project-estimates.ts";
import { projectRevisionRoutes } from "./routes/project-revisions.ts";
import { projectRoutes } from "./routes/projects.ts";
import { simulationRoutes } from "./routes/simulations.ts";
import { validateRequest } from "./validate-request.ts";

const mostJobsWaiting = 100;
const longestReceiveMs = 60_000;

const routes = [
  healthRoutes,
  simulationRoutes,
  projectRoutes,
  projectDocumentRoutes,
  projectRevisionRoutes,
  projectEstimateRoutes,
  estimateReplayRoutes,
  jobRoutes,
  pageRoutes,
];

/** Without a schema, so that stored JSON leaves as it came. */
const writeJson: FastifySerializerCompiler<unknown> = () => (data) => JSON.stringify(data);

/**
 * Builds the service, ready to be listened on or injected into.
 *
 * @param options.logger as Fastify takes it; none unless given
 * @param options.allowedHosts host names it answers for besides this machine's loopback
 * @param options.mostJobsWaiting jobs that may wait for a worker, over all workspaces
 * @param options.serializerCompiler as Fastify takes it, for tests that hold answers against their schemas
 */
export async function buildApp({
  logger = false,
  allowedHosts = [],
  serializerCompiler = writeJson,
  ...context
}: Omit<AppContext, "mostJobsWaiting"> & {
  mostJobsWaiting?: number;
  logger?: FastifyServerOptions["logger"];
  allowedHosts?: readonly string[];
  serializerCompiler?: FastifySerializerCompiler<unknown>;
}): Promise<FastifyInstance> {
  const app = fastify({
    logger: logger ?? false,
    bodyLimit: largestBodyBytes,
    requestTimeout: longestReceiveMs,
    // Requests that arrive while it closes are answered like any other.
    return503OnClosing: false,
    genReqId: context.newId,
    frameworkErrors: (error, request, reply) => void answerProblem(error, request, reply),
    clientErrorHandler: answerUnreadable,
  });
  app.setValidatorCompiler(validateRequest);
  app.setSerializerCompiler(serializerCompiler);
  addLocalOnly(app, allowedHosts);
  addProblemDetails(app);
  addJsonBody(app);
  addRefuseUndeclared(app);
  addEntityTags(app);
  await addSecurityHeaders(app);
  await addOverload(app);
  await addApiDocumentation(app);
  const all = { mostJobsWaiting, ...context };
  for (const route of routes) await app.register(route, { context: all });
  await app.ready();
  return app;
}
