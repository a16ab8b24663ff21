import type { FastifyInstance, FastifyReply } from "fastify";
import { DomainError } from "../numeric/domain-error.ts";

const mostOpen = 1_000;

/**
 * For answers that take as long as something else does.
 *
 * @param most answers that may be under way at once
 * @returns makes the signal of one answer: it fires when its connection closes or the service is about to.
 *   Throws {@link DomainError} `answers-full` when too many are under way
 */
export function addLongAnswers(app: FastifyInstance, most = mostOpen): (reply: FastifyReply) => AbortSignal {
  const open = new Set<AbortController>();
  app.addHook("preClose", async () => {
    for (const controller of open) controller.abort();
  });
  return ({ raw }) => {
    if (open.size >= most)
      throw new DomainError(
        "answers-full",
        `${open.size} requests wait for jobs already, the most there may be`,
      );
    const controller = new AbortController();
    open.add(controller);
    raw.once("close", () => {
      open.delete(controller);
      controller.abort();
    });
    return controller.signal;
  };
}
