import { DomainError } from "../../numeric/domain-error.ts";
import { ProblemError } from "./problem-error.ts";
import { problemTypes } from "./problem-types.ts";
import type { ProblemName } from "./problem-types.ts";

const retrySoon = { "retry-after": "5" };

/** Codes of the core; any other of its codes is a document or option it cannot compute. */
const domainProblems: Readonly<Record<string, ProblemName>> = {
  "revision-conflict": "precondition-failed",
  "pool-full": "overloaded",
  "jobs-full": "overloaded",
  "answers-full": "overloaded",
  "pool-closed": "not-ready",
  "project-deleted": "not-found",
  "result-refused": "internal-error",
  "simulation-cancelled": "simulation-lost",
  "worker-lost": "simulation-lost",
};

/** Codes of the framework; any other of its codes with a status of 400 is a request it cannot read. */
const frameworkProblems: Readonly<Record<string, ProblemName>> = {
  FST_ERR_CTP_BODY_TOO_LARGE: "body-too-large",
  FST_ERR_CTP_INVALID_MEDIA_TYPE: "unsupported-media-type",
  FST_ERR_MAX_PARAM_LENGTH: "address-too-long",
  FST_UNDER_PRESSURE: "overloaded",
};

/** Postgres: connection exceptions, too many connections, shutting down or starting; and the socket's own. */
const databaseGone = /^(08...|53300|57P0[1-3]|ECONNREFUSED|ECONNRESET|ENOENT|EPIPE|ETIMEDOUT)$/;

/** Decides which problem to answer an error with; what is not foreseen is an internal error that tells nothing. */
export function problemOf(error: unknown): ProblemError {
  if (error instanceof ProblemError) return error;
  if (error instanceof DomainError) return domainProblem(error);
  const { code, statusCode, message } = error as { code?: unknown; statusCode?: unknown; message?: string };
  const name = typeof code === "string" ? frameworkProblems[code] : undefined;
  if (name === "overloaded") return new ProblemError(name, undefined, { headers: retrySoon, cause: error });
  if (name !== undefined) return new ProblemError(name, undefined, { cause: error });
  if (statusCode === 400) return new ProblemError("malformed-request", message, { cause: error });
  if (isDatabaseGone(error)) {
    return new ProblemError("not-ready", "The database cannot be reached.", {
      headers: retrySoon,
      cause: error,
    });
  }
  return new ProblemError("internal-error", undefined, { cause: error });
}

function domainProblem(error: DomainError): ProblemError {
  const name = domainProblems[error.code] ?? "not-computable";
  const headers = problemTypes[name].status === 503 ? retrySoon : {};
  return new ProblemError(name, error.message, { headers, cause: error });
}

function isDatabaseGone(error: unknown): boolean {
  if (error instanceof AggregateError) return error.errors.some(isDatabaseGone);
  const { code, message } = error as { code?: unknown; message?: string };
  // The connection pool gives its time-outs and broken connections no code.
  return (
    (typeof code === "string" && databaseGone.test(code)) ||
    /^(timeout exceeded when trying to connect|Connection terminated)/.test(message ?? "")
  );
}
