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
      if (encoding !== "identity") throw unsupported("content-encoding", encoding, "must be identity");
      const type = request.headers["content-type"] ?? "";
      if (!isUtf8(type)) throw unsupported("content-type", type, "the charset must be utf-8");
      done(null, objectIn(body));
    } catch (error) {
      done(error as ProblemError);
    }
  });
}

function isUtf8(type: string): boolean {
  const charsets = [...type.matchAll(/;\s*charset\s*=\s*"?([^\s;"]*)/gi)];
  return charsets.every(([, charset]) => charset?.toLowerCase() === "utf-8");
}

function unsupported(header: string, value: string, rule: string): ProblemError {
  return new ProblemError("unsupported-media-type", undefined, {
    faults: [faultAt(`/headers/${header}`, value, `${rule}, or not there`)],
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
