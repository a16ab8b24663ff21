import underPressure from "@fastify/under-pressure";
import type { FastifyInstance } from "fastify";

const mostEventLoopDelayMs = 2_000;

/** Refuses work while the event loop lags far behind. Whether the process lives must still be answered. */
export async function addOverload(app: FastifyInstance): Promise<void> {
  await app.register(underPressure, { maxEventLoopDelay: mostEventLoopDelayMs, retryAfter: 5 });
}
