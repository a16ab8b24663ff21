import type { FastifyInstance } from "fastify";
import { faultAt } from "../../domain/fault.ts";
import { ProblemError } from "../problems/problem-error.ts";

/** Bytes of a body at most: 1 MiB. */
export const largestBodyBytes = 1_048_576;

/**
 * Reads bodies: JSON objects in UTF-8 and nothing else. What an object may hold is for validation, which
 * also finds what would be dangerous to walk or copy; until then it is only kept.
 */
export function addJsonBody(app: FastifyInstance): void {
  app.removeAllContentTypeParsers();
  app.addContentTypeParser<Buffer>("application/json", { parseAs: "buffer" }, (request, body, done) => {
    try {
      const encoding = request.headers["content-encoding"] ?? "identity";
      if (encoding !== "identity") throw encoded(encoding);
      done(null, objectIn(body));
    } catch (error) {
      done(error as ProblemError);
    }
  });
}

function encoded(encoding: string): ProblemError {
  return new ProblemError("unsupported-media-type", undefined, {
    faults: [faultAt("/headers/content-encoding", encoding, "must be identity, or not there")],
  });
}

function objectIn(body: Buffer): object {
  const value = parse(body);
  if (typeof value === "object" && value !== null && !Array.isArray(value)) return value;
  throw new ProblemError("invalid-body", "The body must be a JSON object.", {
    faults: [faultAt("", value, "must be an object")],
  });
}

function parse(body: Buffer): unknown {
  let text: string | undefined;
  try {
    // Other decoders put a replacement character where bytes are no UTF-8, and what is stored would differ.
    text = new TextDecoder("utf-8", { fatal: true }).decode(body);
    return JSON.parse(text);
  } catch (cause) {
    const rule = text === undefined ? "must be UTF-8" : `must be JSON: ${(cause as SyntaxError).message}`;
    const faults = [faultAt("", text ?? body.toString("latin1"), rule)];
    throw new ProblemError("malformed-json", `The body ${rule}.`, { faults, cause });
  }
}
