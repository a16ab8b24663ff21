import { availableParallelism } from "node:os";
import { fileURLToPath } from "node:url";
import { v7 } from "uuid";
import { renderAnswerText } from "./documents/answer-text.ts";
import { buildApp } from "./http/build-app.ts";
import { createSimulationPool } from "./jobs/simulation-pool.ts";
import { connectDatabase, defaultWorkspaceId } from "./store/connect.ts";
import { readDocument } from "./store/document-store.ts";
import { inWorkspace } from "./store/in-workspace.ts";
import { loadDemo } from "./store/load-demo.ts";
import { listProjects } from "./store/project-store.ts";

const demoFile = new URL("../seed/demo/barn-stored-single.json", import.meta.url);
const defaultDataFolder = fileURLToPath(new URL("../.data/postgres", import.meta.url));
const defaultPort = 4350;
/** Ports tried, from the default one up, when none was asked for. */
const portsTried = 20;

interface Settings {
  readonly databaseUrl: string | undefined;
  readonly dataFolder: string;
  readonly host: string;
  /** Undefined when any near the default will do. */
  readonly port: number | undefined;
  readonly allowedHosts: readonly string[];
  readonly threads: number;
  readonly logger: { level: string } | false;
}

function readSettings(env: NodeJS.ProcessEnv): Settings {
  const whole = (name: string, least: number, most: number) => {
    const written = env[name];
    if (written === undefined || written === "") return undefined;
    const value = Number(written);
    if (/^\d+$/.test(written) && value >= least && value <= most) return value;
    throw new Error(`${name} is "${written}": it must be a whole number from ${least} to ${most}`);
  };
  return {
    databaseUrl: env["DATABASE_URL"] || undefined,
    dataFolder: env["DATA_FOLDER"] || defaultDataFolder,
    host: env["HOST"] || "127.0.0.1",
    port: whole("PORT", 0, 65_535),
    allowedHosts: (env["ALLOWED_HOSTS"] ?? "").split(",").flatMap((host) => host.trim() || []),
    threads: whole("THREADS", 1, 64) ?? Math.max(1, availableParallelism() - 1),
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
async function listen(app: App, { host, port }: Settings): Promise<string> {
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

/** Runs once for the first signal; a terminal's Ctrl-C may reach us twice. */
function onStop(stop: () => Promise<void>): void {
  let stopping = false;
  const handle = () => {
    if (stopping) return;
    stopping = true;
    stop().then(
      () => process.exit(0),
      (error: unknown) => {
        process.stderr.write(`Did not stop in order: ${String(error)}\n`);
        process.exit(1);
      },
    );
  };
  for (const signal of ["SIGINT", "SIGTERM", "SIGHUP"] as const) process.on(signal, handle);
}

async function start(): Promise<void> {
  const settings = readSettings(process.env);
  process.stdout.write("Restoration Reckoner is starting ...\n");
  const database = await connectDatabase(settings);
  const { db } = database;
  const pool = createSimulationPool({ threads: settings.threads });
  const { logger, allowedHosts } = settings;
  const context = { db, pool, workspaceId: defaultWorkspaceId, newId: () => v7() };
  const app = await buildApp({ ...context, logger, allowedHosts });
  const stop = async () => {
    await app.close();
    await pool.close();
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
