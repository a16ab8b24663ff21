import type { JobEvents, JobNews } from "../store/job-events.ts";
import { forgetOldJobs, leaseJob } from "../store/job-queue.ts";
import { makeBell } from "./bell.ts";
import { runJob } from "./run-job.ts";
import type { JobMeans, RunningJob } from "./run-job.ts";

/** When nobody says that a job waits, or a lease runs out, this finds it. */
const betweenLooksMs = 1_000;
const betweenForgettingMs = 3_600_000;

/** Takes jobs from the queue and runs them. */
export interface JobRunner {
  /** Hands back at once what runs, and takes no more. */
  stop(): Promise<void>;
}

/**
 * Starts working on the jobs of all workspaces.
 *
 * @param options.worker name, for whoever looks at the table
 * @param options.atOnce jobs run at the same time; no more than the pool has threads
 * @param options.leaseSeconds how long a job stays with a worker that says nothing, 1 to 60
 * @param options.events wake it; without them it looks every second
 * @param options.onError told what went wrong outside a job's own simulation
 */
export function startJobRunner({
  worker,
  atOnce = 1,
  leaseSeconds = 5,
  events,
  onError = () => undefined,
  ...given
}: Omit<JobMeans, "leaseSeconds"> & {
  worker: string;
  atOnce?: number;
  leaseSeconds?: number;
  events?: JobEvents | undefined;
  onError?: (error: unknown) => void;
}): JobRunner {
  const means = { ...given, leaseSeconds };
  const bell = makeBell();
  const running = new Map<string, RunningJob>();
  let stopping = false;
  let forgottenMs = -Infinity;

  async function takeOne(): Promise<boolean> {
    if (running.size >= atOnce) return false;
    const leased = await leaseJob(means.db, worker, leaseSeconds);
    if (leased === undefined) return false;
    const job = runJob(means, leased);
    const key = keyOf(leased);
    running.set(key, job);
    void job.ended.catch(onError).finally(() => {
      running.delete(key);
      bell.ring();
    });
    if (stopping) job.handBack();
    return true;
  }

  async function forget(): Promise<void> {
    if (performance.now() - forgottenMs < betweenForgettingMs) return;
    forgottenMs = performance.now();
    await forgetOldJobs(means.db);
  }

  async function work(): Promise<void> {
    while (!stopping) {
      const took = await takeOne().catch(onError);
      if (took === true) continue;
      await forget().catch(onError);
      await bell.wait(betweenLooksMs);
    }
  }

  const listening = [
    events?.onWaiting(bell.ring),
    events?.onToCancel((news) => {
      for (const [key, job] of running) if (news === undefined || key === keyOf(news)) job.look();
    }),
  ];
  const working = work();
  return {
    stop: async () => {
      stopping = true;
      bell.ring();
      for (const stopListening of listening) stopListening?.();
      for (const job of running.values()) job.handBack();
      await working;
      await Promise.all([...running.values()].map(({ ended }) => ended.catch(() => undefined)));
    },
  };
}

function keyOf({ workspaceId, jobId }: JobNews): string {
  return `${workspaceId}/${jobId}`;
}
