import type { FastifyInstance, FastifyReply, FastifyRequest } from "fastify";
import { faultAt, faultOfSum } from "../../domain/fault.ts";
import type { Fault } from "../../domain/fault.ts";
import { ProblemError } from "../problems/problem-error.ts";
import { problemBody, problemMediaType } from "../problems/problem-body.ts";
import { problemOf } from "../problems/problem-of.ts";
import { problemTypes } from "../problems/problem-types.ts";
import type { ProblemName } from "../problems/problem-types.ts";
import { largestBodyBytes } from "./json-body.ts";

/** Answers every error with problem details (RFC 9457), and unknown addresses and methods likewise. */
export function addProblemDetails(app: FastifyInstance): void {
  const methodsOf = rememberMethods(app);
  app.setErrorHandler((error, request, reply) => answerProblem(error, request, reply));
  app.addHook("onRequest", async (request) => {
    if (hasEmptyParameter(request)) throw noSuchAddress(request);
  });
  app.setNotFoundHandler((request) => {
    const { method } = request;
    const allowed = methodsOf(pathOf(request));
    if (allowed.length === 0) throw noSuchAddress(request);
    throw new ProblemError("method-not-allowed", `It takes ${allowed.join(", ")}, not ${method}.`, {
      headers: { allow: allowed.join(", ") },
    });
  });
}

/** Answers one request with the problem its error stands for, and logs what is the service's own fault. */
export function answerProblem(error: unknown, request: FastifyRequest, reply: FastifyReply): FastifyReply {
  const problem = problemOf(error);
  const { status } = problemTypes[problem.problem];
  if (problem.problem === "overloaded") request.log.warn({ requestId: request.id }, problem.message);
  else if (status >= 500) request.log.error({ err: error, requestId: request.id }, problem.message);
  return reply
    .code(status)
    .headers(problem.headers)
    .type(problemMediaType)
    .send(
      problemBody(problem, {
        instance: pathOf(request),
        requestId: request.id,
        faults: problem.faults ?? faultsOf[problem.problem]?.(request),
      }),
    );
}

/** What the framework refuses without saying what was there. */
const faultsOf: Partial<Record<ProblemName, (request: FastifyRequest) => Fault[]>> = {
  "body-too-large": ({ headers }) => {
    const size = headers["content-length"] ?? `more than ${largestBodyBytes}`;
    return [faultOfSum("", `${size} bytes`, `at most ${largestBodyBytes} bytes`)];
  },
  "unsupported-media-type": ({ headers }) => [
    faultAt("/headers/content-type", headers["content-type"], "must be application/json"),
  ],
};

/** The router takes nothing at all for an id, as in /v1/projects/ with its slash. */
function hasEmptyParameter({ params }: FastifyRequest): boolean {
  return Object.entries(params ?? {}).some(([name, value]) => name !== "*" && value === "");
}

function noSuchAddress(request: FastifyRequest): ProblemError {
  return new ProblemError("not-found", `Nothing has the address ${pathOf(request)}.`);
}

/** The path asked for, shortened: it comes from outside. */
function pathOf({ url }: FastifyRequest): string {
  return url.split("?", 1)[0]!.slice(0, 200);
}

/** @returns the methods that routes take at a path */
function rememberMethods(app: FastifyInstance): (path: string) => string[] {
  const routes: { segments: string[]; methods: string[] }[] = [];
  app.addHook("onRoute", ({ url, method }) => {
    routes.push({ segments: url.split("/"), methods: [method].flat() });
  });
  return (path) => {
    const asked = path.split("/");
    const matching = routes.filter(
      ({ segments }) =>
        segments.length === asked.length &&
        segments.every((segment, place) =>
          segment.startsWith(":") ? asked[place] !== "" : segment === asked[place],
        ),
    );
    return [...new Set(matching.flatMap(({ methods }) => methods))].sort();
  };
}
