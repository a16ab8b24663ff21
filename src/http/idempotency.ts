import type { FastifyRequest } from "fastify";
import { z } from "zod";
import { digestOf } from "../domain/digest.ts";
import { findKey, takeKey } from "../store/idempotency-store.ts";
import type { KeyedRequest } from "../store/idempotency-store.ts";
import type { Workspace } from "../store/in-workspace.ts";
import { transact } from "./app-context.ts";
import type { AppContext } from "./app-context.ts";
import { ProblemError } from "./problems/problem-error.ts";

/** The header of a request that may be sent again without making anything twice. */
export const idempotencyKeyHeader = {
  "idempotency-key": z
    .string()
    .regex(/^[\x21-\x7e]{1,255}$/, "1 to 255 visible ASCII characters")
    .optional()
    .meta({
      description:
        "Sent again with the same key, a request makes nothing a second time and is answered with what it made the first. " +
        "Keys are the client's to choose, and are kept for ever.",
      examples: ["5f0c1c6e-7d0b-4b0e-9a63-2d6f0f6b8a11"],
    }),
};

type KeyedFastifyRequest = Pick<FastifyRequest, "method" | "url" | "body" | "headers">;

/**
 * Does some work in one transaction, unless an earlier request with the same key did it.
 *
 * @param location of what the work makes
 * @returns where what it or the earlier request made is
 * @throws {ProblemError} key-used-otherwise when the earlier request was another one
 */
export async function once(
  context: AppContext,
  request: KeyedFastifyRequest,
  location: string,
  work: (workspace: Workspace) => Promise<unknown>,
): Promise<string> {
  const keyed = keyedRequest(request, location);
  return transact(context, async (workspace) => {
    const isFirst = keyed === undefined || (await takeKey(workspace, keyed));
    if (isFirst) await work(workspace);
    return isFirst ? location : earlierLocation(await findKey(workspace, keyed.key), keyed);
  });
}

/**
 * Looks whether `once` would have nothing to do, where finding out first saves work.
 *
 * @returns where what the earlier request made is; undefined when there was none
 * @throws {ProblemError} key-used-otherwise when the earlier request was another one
 */
export async function doneBefore(
  context: AppContext,
  request: KeyedFastifyRequest,
): Promise<string | undefined> {
  const keyed = keyedRequest(request, "");
  if (keyed === undefined) return undefined;
  const found = await transact(context, (workspace) => findKey(workspace, keyed.key));
  return found && earlierLocation(found, keyed);
}

function keyedRequest(
  { method, url, body, headers }: KeyedFastifyRequest,
  location: string,
): KeyedRequest | undefined {
  const key = headers["idempotency-key"];
  if (typeof key !== "string") return undefined;
  return { key, location, requestDigest: digestOf([method, url, body ?? {}]) };
}

function earlierLocation(earlier: KeyedRequest | undefined, { requestDigest }: KeyedRequest): string {
  if (earlier?.requestDigest !== requestDigest) throw new ProblemError("key-used-otherwise");
  return earlier.location;
}
