import type { Kysely } from "kysely";
import { v7 } from "uuid";
import { DomainError } from "../numeric/domain-error.ts";
import { finishJob, readTask } from "../store/job-lease.ts";
import type { JobOutcome } from "../store/job-lease.ts";
import type { LeasedJob } from "../store/job-queue.ts";
import type { Tables } from "../store/tables.ts";
import { keepLease } from "./keep-lease.ts";
import type { SimulationPool } from "./simulation-pool.ts";

/** No document that passes the rules comes near it. */
const longestRunMs = 3_600_000;

/** What running a job takes. */
export interface JobMeans {
  readonly db: Kysely<Tables>;
  readonly pool: SimulationPool;
  readonly leaseSeconds: number;
}

/** A job that runs. */
export interface RunningJob {
  /** Looks at once whether it is to be cancelled. */
  look(): void;
  /** Hands it back to the queue at once. */
  handBack(): void;
  /** Resolves when nothing of it is left here; rejects when its end could not be stored. */
  readonly ended: Promise<void>;
}

type Reason = "lost" | "cancelled" | "handed back" | "too long";

/** Runs a leased job to its end, or until it is cancelled, handed back or lost to another worker. */
export function runJob(means: JobMeans, leased: LeasedJob): RunningJob {
  const givingUp = new AbortController();
  const giveUp = (reason: Reason) => givingUp.abort(reason);
  const lease = keepLease({ ...means, leased, giveUp });
  const tooLong = setTimeout(() => giveUp("too long"), longestRunMs);

  async function compute(): Promise<JobOutcome | undefined> {
    try {
      const task = await readTask(means.db, leased);
      if (task === undefined) return undefined;
      const { document, options } = task;
      const result = await means.pool.runWithProgress(document, options, lease.advance, givingUp.signal);
      return { state: "done", result, estimateId: v7() };
    } catch (error) {
      if (givingUp.signal.aborted) return outcomeOf(givingUp.signal.reason as Reason);
      if (error instanceof DomainError) return outcomeOfError(error);
      throw error;
    }
  }

  async function run(): Promise<void> {
    const outcome = await compute().finally(async () => {
      clearTimeout(tooLong);
      await lease.letGo();
    });
    if (outcome !== undefined) await finish(means.db, leased, outcome);
  }

  return { look: lease.renewSoon, handBack: () => giveUp("handed back"), ended: run() };
}

function outcomeOf(reason: Reason): JobOutcome | undefined {
  switch (reason) {
    case "lost":
      return undefined;
    case "cancelled":
      return { state: "cancelled" };
    case "handed back":
      return { state: "waiting", blameless: true };
    case "too long":
      return failed("too-long", `The simulation was given up after ${longestRunMs / 60_000} minutes.`);
  }
}

function outcomeOfError({ code, message }: DomainError): JobOutcome {
  if (code === "worker-lost") return { state: "waiting", blameless: false };
  if (code === "pool-closed") return { state: "waiting", blameless: true };
  return failed(code, message);
}

function failed(code: string, detail: string): JobOutcome {
  return { state: "failed", problem: { code, detail } };
}

/** A result the database will not have would be refused as often as it is computed: then the job fails. */
async function finish(db: Kysely<Tables>, leased: LeasedJob, outcome: JobOutcome): Promise<void> {
  try {
    await finishJob(db, leased, outcome);
  } catch (error) {
    if (outcome.state !== "done" || !isRefusal(error)) throw error;
    await finishJob(db, leased, failed("result-refused", "The database refused the result."));
  }
}

/** Postgres: data that cannot be stored, or that breaks a rule. */
function isRefusal(error: unknown): boolean {
  return error instanceof Error && "code" in error && /^2[23]/.test(String(error.code));
}
