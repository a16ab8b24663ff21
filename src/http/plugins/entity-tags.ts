import type { FastifyInstance, FastifyReply, FastifyRequest } from "fastify";
import { z } from "zod";
import { entityTag, parseEntityTags } from "../entity-tag.ts";
import { ProblemError } from "../problems/problem-error.ts";

/** Headers of a route that changes what has an entity tag: the tag it is expected to have. */
export const ifMatchHeaders = z.looseObject({
  "if-match": z
    .string()
    .refine(
      (header) => parseEntityTags(header) !== undefined,
      'entity tags such as "3", separated by commas, or *',
    )
    .meta({
      description: "The entity tag that reading the resource gave, or * for whatever it is now.",
      examples: ['"3"'],
    }),
});

/**
 * Makes reading and writing conditional (RFC 9110, section 13) for every route of this app and those
 * below it: a read of what the client has already is 304, and a route with `ifMatchHeaders` is 428 without.
 */
export function addEntityTags(app: FastifyInstance): void {
  app.addHook("onRequest", async (request) => {
    if (request.routeOptions.schema?.headers !== ifMatchHeaders) return;
    if (request.headers["if-match"] === undefined) throw new ProblemError("precondition-required");
  });
  app.addHook("onSend", async (request, reply, payload) => {
    if (!reply.hasHeader("cache-control")) reply.header("cache-control", "no-cache");
    if (!isUnchanged(request, reply)) return payload;
    reply.code(304).removeHeader("content-type").removeHeader("content-length");
    return null;
  });
}

/**
 * Checks If-Match with the strong comparison: a weak tag matches nothing.
 *
 * @throws {ProblemError} precondition-failed when the current revision is none of those named
 */
export function requireMatch(request: FastifyRequest, revision: number): void {
  const tags = parseEntityTags(request.headers["if-match"] ?? "") ?? [];
  if (tags.some((tag) => tag === "*" || tag === entityTag(revision))) return;
  throw new ProblemError(
    "precondition-failed",
    `It is at revision ${revision} now, whose tag If-Match does not name.`,
    {
      headers: { etag: entityTag(revision) },
    },
  );
}

/** Whether If-None-Match names the answer's tag, by the weak comparison. One that cannot be read is left out. */
function isUnchanged({ method, headers }: FastifyRequest, reply: FastifyReply): boolean {
  const current = reply.getHeader("etag");
  if (current === undefined || reply.statusCode !== 200 || !(method === "GET" || method === "HEAD"))
    return false;
  const known = parseEntityTags(headers["if-none-match"] ?? "") ?? [];
  return known.some((tag) => tag === "*" || tag.replace(/^W\//, "") === current);
}
