import type { Kysely } from "kysely";
import { renewLease } from "../store/job-lease.ts";
import type { JobAdvance } from "../store/job-lease.ts";
import type { LeasedJob } from "../store/job-queue.ts";
import type { Tables } from "../store/tables.ts";
import { makeBell } from "./bell.ts";

/** Short enough to notice within a second that a job is to be cancelled, whether or not anyone said so. */
const betweenRenewalsMs = 500;

/** A lease that is renewed until it is let go. */
export interface KeptLease {
  /** Takes up how far the work is, to be stored with the next renewal. */
  advance(advance: JobAdvance): void;
  /** Renews now: somebody may want the job cancelled. */
  renewSoon(): void;
  /** Ends the renewals; resolves when none is under way. */
  letGo(): Promise<void>;
}

/**
 * Renews a lease about twice a second.
 *
 * @param giveUp called once when the work must stop, with why
 */
export function keepLease({
  db,
  leased,
  leaseSeconds,
  giveUp,
}: {
  db: Kysely<Tables>;
  leased: LeasedJob;
  leaseSeconds: number;
  giveUp: (why: "lost" | "cancelled") => void;
}): KeptLease {
  const bell = makeBell();
  let letGo = false;
  let newest: JobAdvance = { progress: 0 };
  let heldUntilMs = performance.now() + leaseSeconds * 1_000;

  async function renew(): Promise<"held" | "lost" | "cancelled"> {
    const sent = newest;
    const begunMs = performance.now();
    const state = await renewLease(db, leased, leaseSeconds, sent).catch(() => "unknown" as const);
    if (state === "unknown") return performance.now() < heldUntilMs ? "held" : "lost";
    heldUntilMs = begunMs + leaseSeconds * 1_000;
    if (newest.partial === sent.partial) newest = { progress: newest.progress };
    return state;
  }

  async function keep(): Promise<void> {
    for (;;) {
      await bell.wait(betweenRenewalsMs);
      if (letGo) return;
      const state = await renew();
      if (state === "held") continue;
      giveUp(state);
      return;
    }
  }

  const kept = keep();
  return {
    advance: (advance) => (newest = { ...newest, ...advance }),
    renewSoon: bell.ring,
    letGo: () => {
      letGo = true;
      bell.ring();
      return kept;
    },
  };
}
