import { hostname } from "node:os";
import { v7 } from "uuid";
import { renderAnswerText } from "./documents/answer-text.ts";
import { buildApp } from "./http/build-app.ts";
import { startJobRunner } from "./jobs/job-runner.ts";
import { createPredictor } from "./jobs/predicted-ms.ts";
import type { Predictor } from "./jobs/predicted-ms.ts";
import { createSimulationPool } from "./jobs/simulation-pool.ts";
import { onStop } from "./on-stop.ts";
import { readSettings, wholeSetting } from "./settings.ts";
import type { Settings } from "./settings.ts";
import { connectDatabase, defaultWorkspaceId } from "./store/connect.ts";
import { readDocument } from "./store/document-store.ts";
import { inWorkspace } from "./store/in-workspace.ts";
import { openJobEvents } from "./store/job-events.ts";
import type { JobEvents } from "./store/job-events.ts";
import { loadDemo } from "./store/load-demo.ts";
import { listProjects } from "./store/project-store.ts";

const demoFile = new URL("../seed/demo/barn-stored-single.json", import.meta.url);
const defaultPort = 4350;
/** Ports tried, from the default one up, when none was asked for. */
const portsTried = 20;

interface ServerSettings extends Settings {
  readonly host: string;
  /** Undefined when any near the default will do. */
  readonly port: number | undefined;
  readonly allowedHosts: readonly string[];
  /** Jobs run at the same time; none leaves them all to workers. */
  readonly jobThreads: number;
  readonly logger: { level: string } | false;
}

function readServerSettings(env: NodeJS.ProcessEnv): ServerSettings {
  return {
    ...readSettings(env),
    host: env["HOST"] || "127.0.0.1",
    port: wholeSetting(env, "PORT", 0, 65_535),
    allowedHosts: (env["ALLOWED_HOSTS"] ?? "").split(",").flatMap((host) => host.trim() || []),
    jobThreads: wholeSetting(env, "JOB_THREADS", 0, 64) ?? 1,
    logger: readLogger(env["LOG_LEVEL"]),
  };
}

const logLevels = ["fatal", "error", "warn", "info", "debug", "trace"];

function readLogger(level: string | undefined): { level: string } | false {
  if (level === undefined || level === "") return false;
  if (logLevels.includes(level)) return { level };
  throw new Error(`LOG_LEVEL is "${level}": it must be one of ${logLevels.join(", ")}`);
}

type App = Awaited<ReturnType<typeof buildApp>>;

/** Listens where it was told to, or else on the first free port from the default up. */
async function listen(app: App, { host, port }: ServerSettings): Promise<string> {
  if (port !== undefined) return app.listen({ host, port });
  for (let candidate = defaultPort; ; candidate++) {
    try {
      return await app.listen({ host, port: candidate });
    } catch (error) {
      const taken = (error as NodeJS.ErrnoException).code === "EADDRINUSE";
      if (!taken || candidate === defaultPort + portsTried - 1) throw error;
    }
  }
}

async function start(): Promise<void> {
  const settings = readServerSettings(process.env);
  process.stdout.write("Restoration Reckoner is starting ...\n");
  const database = await connectDatabase(settings);
  const { db } = database;
  const { threads, jobThreads, logger, allowedHosts } = settings;
  const predictor = createPredictor();
  const onTimed = predictor.observe;
  const pool = createSimulationPool({ threads, onTimed });
  const jobEvents = openJobEvents(database.login);
  const jobs = startJobs({ db, events: jobEvents, onTimed }, jobThreads);
  const newId = () => v7();
  const context = { db, pool, predictor, jobEvents, workspaceId: defaultWorkspaceId, newId };
  const app = await buildApp({ ...context, logger, allowedHosts });
  const stop = async () => {
    await jobs.stop();
    await app.close();
    await pool.close();
    await jobEvents.close();
    await database.close();
  };
  onStop(stop);
  try {
    const loaded = await loadDemo(db, defaultWorkspaceId, demoFile);
    const address = await listen(app, settings);
    const answer = await newestAnswer(db, pool);
    process.stdout.write(banner(database.describe, loaded, answer, address));
  } catch (error) {
    await stop();
    throw error;
  }
}

/**
 * Works on jobs with threads of their own: a long one must not keep those waiting whose answer is due at
 * once.
 */
function startJobs(
  { onTimed, ...means }: { db: Database; events: JobEvents; onTimed: Predictor["observe"] },
  threads: number,
) {
  if (threads === 0) return { stop: () => Promise.resolve() };
  const pool = createSimulationPool({ threads, onTimed });
  const onError = (error: unknown) => process.stderr.write(`Job not finished: ${String(error)}\n`);
  const worker = `${hostname()} ${process.pid}`;
  const runner = startJobRunner({ ...means, pool, worker, atOnce: threads, onError });
  return {
    stop: async () => {
      await runner.stop();
      await pool.close();
    },
  };
}

type Database = Awaited<ReturnType<typeof connectDatabase>>["db"];
type Pool = ReturnType<typeof createSimulationPool>;

async function newestAnswer(db: Database, pool: Pool): Promise<string | undefined> {
  const newest = await inWorkspace(db, defaultWorkspaceId, async (workspace) => {
    const [project] = await listProjects(workspace, { limit: 1 });
    return project && readDocument(workspace, project.id);
  });
  return newest && renderAnswerText(newest.document, await pool.run(newest.document, {}));
}

function banner(where: string, loaded: boolean, answer: string | undefined, address: string): string {
  const lines = [
    `Database: ${where}.`,
    ...(loaded ? ["The database was empty: the demo project is in it now."] : []),
    "",
    answer ?? "No project yet.\n",
    `Page           ${address}/`,
    `Documentation  ${address}/docs`,
    "Ctrl-C stops it.",
  ];
  return `${lines.join("\n")}\n`;
}

try {
  await start();
} catch (error) {
  process.stderr.write(`Cannot start: ${(error as Error).message}\n`);
  process.exit(1);
}
