import type { FastifyInstance, FastifyRequest } from "fastify";
import { faultAt } from "../../domain/fault.ts";
import type { Fault } from "../../domain/fault.ts";
import { jsonPointer } from "../../domain/json-pointer.ts";
import { ProblemError } from "../problems/problem-error.ts";

/**
 * Refuses a query or a body where a route of the API declares none: a field that would be ignored is a
 * mistake worth hearing of. Where one is declared its schema refuses what it does not know.
 */
export function addRefuseUndeclared(app: FastifyInstance): void {
  app.addHook("preValidation", async (request) => {
    const { schema } = request.routeOptions;
    if (schema === undefined || schema.hide === true) return;
    const query = schema.querystring === undefined ? unknownFields("/query", request.query) : [];
    if (query.length > 0) throw new ProblemError("invalid-request", undefined, { faults: query });
    const body = schema.body === undefined ? unknownFields("", request.body) : [];
    if (body.length > 0) throw new ProblemError("invalid-body", "This takes no body.", { faults: body });
  });
}

function unknownFields(base: string, given: FastifyRequest["body"]): Fault[] {
  return Object.entries(given ?? {}).map(([name, value]) =>
    faultAt(base + jsonPointer([name]), value, "unknown field"),
  );
}
