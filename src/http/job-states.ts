import { makeBell } from "../jobs/bell.ts";
import { findJob } from "../store/job-store.ts";
import type { Job, JobSummary } from "../store/job-store.ts";
import { transact } from "./app-context.ts";
import type { AppContext } from "./app-context.ts";

/** Whether a job will never change again. */
export function isEnded({ state }: JobSummary): boolean {
  return state === "done" || state === "failed" || state === "cancelled";
}

/**
 * Follows a job to its end. Who reads slowly is given the newest state, not every one in between.
 *
 * @param options.after revision that is known already; 0 when none is
 * @param options.beatMs the job is looked at that often even if nobody says that it has changed
 * @returns its states; undefined for each look that found nothing new
 */
export async function* jobStates(
  context: Pick<AppContext, "db" | "workspaceId" | "jobEvents">,
  jobId: string,
  { after, beatMs, signal }: { after: number; beatMs: number; signal: AbortSignal },
): AsyncGenerator<Job | undefined> {
  const bell = makeBell();
  const stopListening = context.jobEvents.onChanged((news) => {
    if (news === undefined || (news.jobId === jobId && news.workspaceId === context.workspaceId)) bell.ring();
  });
  signal.addEventListener("abort", bell.ring);
  try {
    for (let known = after; !signal.aborted; await bell.wait(beatMs)) {
      const job = await transact(context, (workspace) => findJob(workspace, jobId));
      if (job === undefined) return;
      yield job.revision > known ? job : undefined;
      if (isEnded(job)) return;
      known = Math.max(known, job.revision);
    }
  } finally {
    stopListening();
    signal.removeEventListener("abort", bell.ring);
  }
}
