import { z } from "zod";
import { problemMediaType, problemSchema } from "./problems/problem-body.ts";
import { problemTypes } from "./problems/problem-types.ts";
import type { ProblemName } from "./problems/problem-types.ts";
import { wholeNumberParameter } from "./whole-number-parameter.ts";

/** The shape of every id the service makes, and of what a cursor hides. */
export const uuidForm = /^[0-9a-f]{8}(-[0-9a-f]{4}){3}-[0-9a-f]{12}$/;

const uuidSchema = (of: string) =>
  z.string().regex(uuidForm, "must be a UUID in lower case").meta({ description: of, format: "uuid" });

/** Path of one project. */
export const projectParams = z.strictObject({ projectId: uuidSchema("The project's id.") });
/** Path of one revision of a project. */
export const revisionParams = projectParams.extend({
  revision: wholeNumberParameter("a revision", 1, 1e9).meta({
    description: "Number of the revision, from 1.",
  }),
});
/** Path of one estimate of a project. */
export const estimateParams = projectParams.extend({ estimateId: uuidSchema("The estimate's id.") });

/** Path of one job. */
export const jobParams = z.strictObject({ jobId: uuidSchema("The job's id.") });

interface HeaderSchema {
  type: "string";
  description: string;
}

/** What a route says of one of its answers. */
export interface Described {
  description: string;
  content: Record<string, { schema: z.ZodType }>;
  headers?: Record<string, HeaderSchema>;
}

/** Headers of what has an entity tag. */
export const taggedHeaders: Record<string, HeaderSchema> = {
  ETag: { type: "string", description: "Its strong entity tag, for If-Match and If-None-Match." },
};
/** Headers of what was made. */
export const locationHeader: Record<string, HeaderSchema> = {
  Location: { type: "string", description: "Its address." },
};
/** Headers of what was made and has an entity tag. */
export const createdHeaders = { ...locationHeader, ...taggedHeaders };

/** Declares a JSON answer. */
export function answer(
  description: string,
  schema: z.ZodType,
  headers?: Record<string, HeaderSchema>,
): Described {
  return { description, content: { "application/json": { schema } }, ...(headers && { headers }) };
}

/** Problems that any request may be answered with. */
const everywhere: readonly ProblemName[] = [
  "invalid-request",
  "foreign-host",
  "internal-error",
  "overloaded",
];
/** Problems of every request with a body. */
export const bodyProblems: readonly ProblemName[] = [
  "malformed-json",
  "foreign-origin",
  "body-too-large",
  "unsupported-media-type",
  "invalid-body",
];
/** Problems of every request that simulates. */
export const simulationProblems: readonly ProblemName[] = ["not-computable", "simulation-lost", "not-ready"];
/** Problems of every change that is conditional. */
export const conditionProblems: readonly ProblemName[] = ["precondition-failed", "precondition-required"];

/** Declares the failing answers of a route: those every route has and those named. */
export function problems(...named: readonly ProblemName[]): Record<string, Described> {
  const names = [...new Set([...everywhere, ...named])];
  const statuses = new Set(names.map((name) => problemTypes[name].status));
  return Object.fromEntries(
    [...statuses].map((status) => [
      String(status),
      {
        description: names
          .filter((name) => problemTypes[name].status === status)
          .map((name) => `${problemTypes[name].title} (/problems/${name}).`)
          .join(" "),
        content: { [problemMediaType]: { schema: problemSchema } },
      },
    ]),
  );
}
