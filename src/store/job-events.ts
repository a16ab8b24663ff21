import { setTimeout as sleep } from "node:timers/promises";
import pg from "pg";

const connectMs = 10_000;
const betweenConnectsMs = 1_000;

/** Which job something happened to. */
export interface JobNews {
  readonly workspaceId: string;
  readonly jobId: string;
}

/** Called with the job, or without one when news may have been missed. */
export type JobListener = (news?: JobNews) => void;

/**
 * The database's word of jobs. Whoever listens must look for himself now and then all the same: while the
 * session is broken nothing is heard. Each function gives back how to stop listening.
 */
export interface JobEvents {
  /** Some job begins to wait; it is never said which. */
  onWaiting(listener: JobListener): () => void;
  /** Something visible of a job has changed: its revision is another. */
  onChanged(listener: JobListener): () => void;
  /** Somebody asks for the end of a job. */
  onToCancel(listener: JobListener): () => void;
  close(): Promise<void>;
}

/**
 * Listens in a session of its own, which is opened anew whenever it breaks.
 *
 * @param login as `pg` takes it
 */
export function openJobEvents(login: pg.ClientConfig): JobEvents {
  const channels = {
    job_waiting: new Set<JobListener>(),
    job_changed: new Set<JobListener>(),
    job_to_cancel: new Set<JobListener>(),
  };
  const closing = new AbortController();
  const { signal } = closing;

  const hear = ({ channel, payload }: pg.Notification) => {
    for (const listener of channels[channel as keyof typeof channels]) listener(newsOf(payload));
  };
  const begin = async (session: pg.Client) => {
    session.on("notification", hear);
    await session.connect();
    await session.query(
      Object.keys(channels)
        .map((channel) => `listen ${channel}`)
        .join("; "),
    );
    for (const listeners of Object.values(channels)) for (const listener of listeners) listener();
  };
  const listening = (async () => {
    while (!signal.aborted) {
      await inSession(login, begin, signal).catch(() => undefined);
      await sleep(betweenConnectsMs, undefined, { signal }).catch(() => undefined);
    }
  })();

  const add = (listeners: Set<JobListener>) => (listener: JobListener) => {
    listeners.add(listener);
    return () => void listeners.delete(listener);
  };
  return {
    onWaiting: add(channels.job_waiting),
    onChanged: add(channels.job_changed),
    onToCancel: add(channels.job_to_cancel),
    close: () => {
      closing.abort();
      return listening;
    },
  };
}

/** Keeps a session open until it breaks, its beginning fails or the signal comes. */
async function inSession(
  login: pg.ClientConfig,
  begin: (session: pg.Client) => Promise<void>,
  signal: AbortSignal,
): Promise<void> {
  const session = new pg.Client({
    ...login,
    connectionTimeoutMillis: connectMs,
    keepAlive: true,
    application_name: "job events",
  });
  let end: () => void = () => undefined;
  const ended = new Promise<void>((resolve) => (end = resolve));
  session.on("error", end);
  session.on("end", end);
  signal.addEventListener("abort", end);
  try {
    await begin(session);
    if (!signal.aborted) await ended;
  } finally {
    signal.removeEventListener("abort", end);
    await session.end().catch(() => undefined);
  }
}

function newsOf(payload: string | undefined): JobNews | undefined {
  const [workspaceId, jobId] = (payload ?? "").split("/");
  return workspaceId && jobId ? { workspaceId, jobId } : undefined;
}
