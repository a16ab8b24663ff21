import { z } from "zod";
import type { Fault } from "../../domain/fault.ts";
import { problemTypes } from "./problem-types.ts";
import type { ProblemError } from "./problem-error.ts";

const faultSchema = z
  .strictObject({
    pointer: z.string().meta({ description: 'JSON Pointer (RFC 6901) to the place; "" is the whole body.' }),
    value: z.string().meta({ description: "What stands there, shortened." }),
    rule: z.string().meta({ description: "The rule it breaks." }),
  })
  .meta({ id: "Fault", description: "One broken rule." });

/** The answer to a request that fails, as application/problem+json. */
export const problemSchema = z
  .strictObject({
    type: z.string().meta({ description: "Address of the kind of problem, relative to this service." }),
    title: z.string().meta({ description: "The kind of problem in words." }),
    status: z.int().meta({ description: "The HTTP status." }),
    detail: z.string().meta({ description: "What is wrong with this request." }),
    instance: z
      .string()
      .optional()
      .meta({ description: "The path that was asked for; absent where it cannot be read." }),
    requestId: z
      .string()
      .optional()
      .meta({ description: "Id of the request in the service's log; absent where it cannot be read." }),
    faults: z.array(faultSchema).optional().meta({ description: "Every broken rule, up to 100." }),
  })
  .meta({
    id: "Problem",
    description: "Problem details (RFC 9457).",
    examples: [
      {
        type: "/problems/invalid-body",
        title: problemTypes["invalid-body"].title,
        status: 422,
        detail: "The body breaks 1 rule.",
        instance: "/v1/simulations",
        requestId: "0198f0a0-5c1e-7d35-9a53-1f0f5d9c2a11",
        faults: [{ pointer: "/document/parts/0/quantity", value: "-1", rule: "quantity is above 0" }],
      },
    ],
  });

/** The media type of every failing answer. */
export const problemMediaType = "application/problem+json";

/** @param request what is known of the request: its path, without the query, its id and the rules it breaks */
export function problemBody(
  error: ProblemError,
  request: { instance?: string; requestId?: string; faults?: readonly Fault[] | undefined } = {},
): z.infer<typeof problemSchema> {
  const { status, title } = problemTypes[error.problem];
  const { faults, ...known } = request;
  return {
    type: `/problems/${error.problem}`,
    title,
    status,
    detail: error.message,
    ...known,
    ...(faults && { faults: [...faults] }),
  };
}
