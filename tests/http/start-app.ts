import type { FastifyInstance, FastifySerializerCompiler, LightMyRequestResponse } from "fastify";
import { v7 } from "uuid";
import { z } from "zod";
import { buildApp } from "../../src/http/build-app.ts";
import type { Predictor } from "../../src/jobs/predicted-ms.ts";
import { createSimulationPool } from "../../src/jobs/simulation-pool.ts";
import type { SimulationPool } from "../../src/jobs/simulation-pool.ts";
import { inWorkspace } from "../../src/store/in-workspace.ts";
import { openJobEvents } from "../../src/store/job-events.ts";
import type { JobEvents } from "../../src/store/job-events.ts";
import { freshDatabase } from "../support/fresh-database.ts";
import type { FreshDatabase } from "../support/fresh-database.ts";

/** The service with a database and worker threads of its own. */
export interface TestApp {
  readonly app: FastifyInstance;
  readonly database: FreshDatabase;
  readonly pool: SimulationPool;
  readonly workspaceId: string;
  readonly jobEvents: JobEvents;
  stop(): Promise<void>;
}

/** Holds every answer against the schema its route declares, unknown fields included. */
const checkedJson: FastifySerializerCompiler<unknown> = ({ schema }) => {
  const declared = z.instanceof(z.ZodType).parse(schema);
  return (data) => {
    const text = JSON.stringify(data);
    declared.parse(JSON.parse(text));
    return text;
  };
};

/** Predicts that nothing takes long, so that nothing becomes a job unasked. */
const everythingIsQuick = { predictedMs: () => 0 };

interface AppSettings {
  predictor?: Pick<Predictor, "predictedMs">;
  mostJobsWaiting?: number;
}

/** @param options.pool instead of one with real threads */
export async function startApp({
  pool = createSimulationPool({ threads: 1 }),
  ...settings
}: AppSettings & { pool?: SimulationPool } = {}): Promise<TestApp> {
  const database = await freshDatabase();
  const jobEvents = openJobEvents(database.server);
  const { app, workspaceId } = await secondApp({ database, pool, jobEvents }, settings);
  const stop = async () => {
    await app.close();
    await jobEvents.close();
    await pool.close();
    await database.drop();
  };
  return { app, database, pool, workspaceId, jobEvents, stop };
}

/** Another app on the same database, for a workspace of its own. */
export async function secondApp(
  { database, pool, jobEvents }: Pick<TestApp, "database" | "pool" | "jobEvents">,
  { predictor = everythingIsQuick, ...settings }: AppSettings = {},
) {
  const { db } = database;
  const workspaceId = v7();
  await inWorkspace(db, workspaceId, ({ trx }) =>
    trx.insertInto("workspace").values({ workspace_id: workspaceId, name: "Test" }).execute(),
  );
  const app = await buildApp({
    db,
    pool,
    predictor,
    jobEvents,
    ...settings,
    workspaceId,
    newId: () => v7(),
    allowedHosts: ["garage.example"],
    serializerCompiler: checkedJson,
  });
  return { app, workspaceId };
}

/** Sends JSON. */
export function send(
  app: FastifyInstance,
  method: "POST" | "PUT",
  url: string,
  payload: object,
  headers: Record<string, string> = {},
): Promise<LightMyRequestResponse> {
  return app.inject({ method, url, payload, headers });
}

/** Makes a project. @returns its address */
export async function newProject(app: FastifyInstance, document: object): Promise<string> {
  const response = await send(app, "POST", "/v1/projects", { document });
  if (response.statusCode !== 201) throw new Error(response.body);
  return String(response.headers.location);
}
