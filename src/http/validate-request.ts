import type { FastifySchemaCompiler } from "fastify";
import { z } from "zod";
import { checkShape } from "../domain/check-shape.ts";
import { estimateDocumentSchema } from "../domain/estimate-document.ts";
import { firstFaults } from "../domain/fault.ts";
import type { Fault } from "../domain/fault.ts";
import { parseEstimateDocument } from "../domain/parse-estimate-document.ts";
import { unknownField } from "../domain/plain-rule.ts";
import { structureFaults } from "../domain/structure-faults.ts";
import { unknownParameter } from "./plugins/refuse-undeclared.ts";
import { ProblemError } from "./problems/problem-error.ts";

type Checked = { readonly value: unknown } | { readonly faults: readonly Fault[] };

/** Where the parts of a request other than its body are pointed to. */
const places: Readonly<Record<string, string>> = {
  params: "/path",
  querystring: "/query",
  headers: "/headers",
};

/**
 * Checks the parts of a request against the schemas its route declares. A document, alone or as a field of
 * the body, gets the whole check of every rule, wherever a route's schema names it.
 */
export const validateRequest: FastifySchemaCompiler<z.ZodType> = ({ schema, httpPart }) => {
  const place = places[httpPart ?? ""];
  if (place === undefined) {
    const check = bodyCheck(schema);
    return (data) => {
      const checked = check(data ?? {});
      return "value" in checked ? checked : { error: invalidBody(checked.faults) };
    };
  }
  return (data) => {
    const checked = checkPlain(schema, data);
    return "value" in checked ? checked : { error: invalidRequest(place, checked.faults) };
  };
};

function bodyCheck(schema: z.ZodType): (body: unknown) => Checked {
  if (schema === estimateDocumentSchema) return checkDocument;
  if (!(schema instanceof z.ZodObject) || schema.shape["document"] !== estimateDocumentSchema)
    return (body) => checkPlain(schema, body);
  const restSchema = schema.safeExtend({ document: z.never().optional() });
  return (body) => {
    const { document, ...rest } = body as Record<string, unknown>;
    const others = checkPlain(restSchema, rest);
    const checked = checkDocument(document, "/document");
    if ("value" in others && "value" in checked) {
      return { value: { ...(others.value as object), document: checked.value } };
    }
    return { faults: [others, checked].flatMap((one) => ("faults" in one ? one.faults : [])) };
  };
}

function checkDocument(input: unknown, base = ""): Checked {
  const parsed = parseEstimateDocument(input);
  // What was sent goes on: the checker's copy has the fields in another order.
  if ("document" in parsed) return { value: input };
  return { faults: parsed.faults.map((fault) => ({ ...fault, pointer: base + fault.pointer })) };
}

/** What cannot be stored or would be dangerous to walk is found before anything else looks at it. */
function checkPlain(schema: z.ZodType, data: unknown): Checked {
  const faults = structureFaults(data);
  return faults.length > 0 ? { faults } : checkShape(schema, data);
}

function invalidBody(faults: readonly Fault[]): ProblemError {
  const detail = `The body breaks ${faults.length === 1 ? "1 rule" : `${faults.length} rules`}.`;
  return new ProblemError("invalid-body", detail, { faults: firstFaults(faults) });
}

function invalidRequest(place: string, faults: readonly Fault[]): ProblemError {
  const placed = faults.map(({ pointer, value, rule }) => ({
    pointer: place + pointer,
    value,
    rule: rule === unknownField ? unknownParameter : rule,
  }));
  return new ProblemError("invalid-request", undefined, { faults: placed });
}
