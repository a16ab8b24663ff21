import type { Job } from "../store/job-store.ts";
import { shownJob } from "./job-schema.ts";

const reconnectMs = 1_000;

/**
 * Writes a job's states as server-sent events, each with the job's revision for its id. Where there is
 * nothing to say a comment keeps the connection open.
 *
 * @see HTML Living Standard, section 9.2 (server-sent events)
 */
export async function* eventStream(states: AsyncIterable<Job | undefined>): AsyncGenerator<string> {
  // Sent at once, so that the client knows it is connected.
  yield `retry: ${reconnectMs}\n\n`;
  for await (const job of states) {
    // JSON.stringify() writes no line breaks, so one data line holds it.
    yield job === undefined
      ? ": nothing new\n\n"
      : `id: ${job.revision}\ndata: ${JSON.stringify(shownJob(job))}\n\n`;
  }
}
