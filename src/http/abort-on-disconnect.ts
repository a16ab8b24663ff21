import type { FastifyReply } from "fastify";

/** A signal that fires when the client goes away before it has its answer. */
export function abortOnDisconnect({ raw }: FastifyReply): AbortSignal {
  const controller = new AbortController();
  raw.once("close", () => {
    if (!raw.writableFinished) controller.abort();
  });
  return controller.signal;
}
