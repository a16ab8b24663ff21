import { faultAt } from "../domain/fault.ts";
import { ProblemError } from "./problems/problem-error.ts";

/** Hides where a page of a list ended, so that clients do not build on it. */
export function encodeCursor(last: string): string {
  return Buffer.from(last).toString("base64url");
}

/**
 * Reads a cursor that came back.
 *
 * @param form what the hidden text must look like
 * @throws {ProblemError} invalid-request when it is no cursor of this list
 */
export function decodeCursor(cursor: string, form: RegExp): string {
  const last = Buffer.from(cursor, "base64url").toString();
  if (form.test(last) && encodeCursor(last) === cursor) return last;
  throw new ProblemError("invalid-request", undefined, {
    faults: [faultAt("/query/cursor", cursor, "must be the nextCursor of an earlier page of this list")],
  });
}
