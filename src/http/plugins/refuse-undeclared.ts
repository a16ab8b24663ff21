import type { FastifyInstance, FastifyRequest } from "fastify";
import { faultAt } from "../../domain/fault.ts";
import type { Fault } from "../../domain/fault.ts";
import { jsonPointer } from "../../domain/json-pointer.ts";
import { unknownField } from "../../domain/plain-rule.ts";
import { ProblemError } from "../problems/problem-error.ts";

/** The rule that a parameter breaks which the route does not have. */
export const unknownParameter = "unknown parameter";

/**
 * Refuses a query or a body where a route of the API declares none: a field that would be ignored is a
 * mistake worth hearing of. Where one is declared its schema refuses what it does not know.
 */
export function addRefuseUndeclared(app: FastifyInstance): void {
  app.addHook("preValidation", async (request) => {
    const { schema } = request.routeOptions;
    if (schema === undefined || schema.hide === true) return;
    requireDecodable(request.url);
    const query = schema.querystring === undefined ? unknown(unknownParameter, request.query, "/query") : [];
    if (query.length > 0) throw new ProblemError("invalid-request", undefined, { faults: query });
    const body = schema.body === undefined ? unknown(unknownField, request.body) : [];
    if (body.length > 0) throw new ProblemError("invalid-body", "This takes no body.", { faults: body });
  });
}

/** The framework leaves a query as it came where it cannot decode it. */
function requireDecodable(url: string): void {
  const query = url.slice(url.indexOf("?") + 1);
  try {
    decodeURIComponent(query);
  } catch (cause) {
    const faults = [faultAt("/query", query, "must be UTF-8, percent-encoded")];
    throw new ProblemError("malformed-request", undefined, { faults, cause });
  }
}

function unknown(rule: string, given: FastifyRequest["body"], base = ""): Fault[] {
  return Object.entries(given ?? {}).map(([name, value]) => faultAt(base + jsonPointer([name]), value, rule));
}
