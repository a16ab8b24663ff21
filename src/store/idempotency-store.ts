import type { Workspace } from "./in-workspace.ts";

/** A request that may be sent again. */
export interface KeyedRequest {
  /** The client's. */
  readonly key: string;
  /** Tells it from any other request under the same key: 64 hex digits. */
  readonly requestDigest: string;
  /** Path of what it made. */
  readonly location: string;
}

export async function findKey(workspace: Workspace, key: string): Promise<KeyedRequest | undefined> {
  return workspace.trx
    .selectFrom("idempotency_key")
    .select(["key", "request_digest as requestDigest", "location"])
    .where("workspace_id", "=", workspace.id)
    .where("key", "=", key)
    .executeTakeFirst();
}

/**
 * Takes a key for the effect of this transaction. Another transaction that takes the same one at this moment
 * is waited for.
 *
 * @returns whether it was free
 */
export async function takeKey(workspace: Workspace, request: KeyedRequest): Promise<boolean> {
  const { numInsertedOrUpdatedRows } = await workspace.trx
    .insertInto("idempotency_key")
    .values({
      workspace_id: workspace.id,
      key: request.key,
      request_digest: request.requestDigest,
      location: request.location,
    })
    .onConflict((conflict) => conflict.doNothing())
    .executeTakeFirstOrThrow();
  return numInsertedOrUpdatedRows === 1n;
}
