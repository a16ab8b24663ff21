import type { FastifyInstance } from "fastify";
import { faultAt } from "../../domain/fault.ts";
import { ProblemError } from "../problems/problem-error.ts";

/**
 * Reads bodies: JSON objects in UTF-8 and nothing else. What an object may hold is for validation, which
 * also finds what would be dangerous to walk or copy; until then it is only kept.
 */
export function addJsonBody(app: FastifyInstance): void {
  app.removeAllContentTypeParsers();
  app.addContentTypeParser<Buffer>("application/json", { parseAs: "buffer" }, (request, body, done) => {
    try {
      const encoding = request.headers["content-encoding"] ?? "identity";
      if (encoding !== "identity") throw new ProblemError("unsupported-media-type");
      done(null, objectIn(body));
    } catch (error) {
      done(error as ProblemError);
    }
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
  let text: string;
  try {
    // Other decoders put a replacement character where bytes are no UTF-8, and what is stored would differ.
    text = new TextDecoder("utf-8", { fatal: true }).decode(body);
  } catch (cause) {
    throw new ProblemError("malformed-json", "The body is not UTF-8.", { cause });
  }
  if (text.trim() === "") throw new ProblemError("malformed-json", "The body is empty.");
  try {
    return JSON.parse(text);
  } catch (cause) {
    throw new ProblemError("malformed-json", (cause as SyntaxError).message, { cause });
  }
}
