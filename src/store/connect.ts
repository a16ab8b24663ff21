import { sql } from "kysely";
import type { Kysely } from "kysely";
import type pg from "pg";
import { startEmbeddedPostgres } from "./embedded-postgres.ts";
import { inWorkspace } from "./in-workspace.ts";
import { migrateToLatest } from "./migrate.ts";
import { openAdminDatabase, openAppDatabase } from "./open-database.ts";
import type { Tables } from "./tables.ts";

/** The one workspace of an installation without logins. */
export const defaultWorkspaceId = "00000000-0000-7000-8000-000000000001";

const oldestVersion = 15;

/** A database ready for the stores. */
export interface ConnectedDatabase {
  readonly db: Kysely<Tables>;
  /** Login of a session besides those of `db`. */
  readonly login: pg.ClientConfig;
  /** Which database it is, for people; without a password. */
  readonly describe: string;
  /** Closes the connections and leaves the embedded server, which stops when nobody else uses it. */
  close(): Promise<void>;
}

/**
 * Connects to the server at `databaseUrl`, or without one to an embedded Postgres; brings its tables up to
 * date and sees to it that the default workspace is there.
 */
export async function connectDatabase(options: {
  databaseUrl?: string | undefined;
  dataFolder: string;
}): Promise<ConnectedDatabase> {
  const server =
    options.databaseUrl === undefined
      ? await embeddedServer(options.dataFolder)
      : externalServer(options.databaseUrl);
  const db = openAppDatabase(server.app);
  const close = async () => {
    await db.destroy();
    await server.stop();
  };
  try {
    const version = await prepare(server.admin);
    await ensureDefaultWorkspace(db);
    return { db, login: server.app, describe: `Postgres ${version}${server.where}`, close };
  } catch (error) {
    await close();
    throw new Error(`The database cannot be used${server.where}: ${reasonOf(error)}`, { cause: error });
  }
}

interface Server {
  /** Login that may make tables and roles. */
  readonly admin: pg.PoolConfig;
  /** Login of the app's own queries. */
  readonly app: pg.PoolConfig;
  readonly where: string;
  stop(): Promise<void>;
}

/** Here the app logs in as its role, so that not even `reset role` would lead back to an administrator. */
async function embeddedServer(wanted: string): Promise<Server> {
  const { connection, dataFolder, stop } = await startEmbeddedPostgres({ dataFolder: wanted });
  return {
    admin: connection,
    app: { ...connection, user: "restoration_app" },
    where: ` in ${dataFolder}`,
    stop,
  };
}

function externalServer(connectionString: string): Server {
  return {
    admin: { connectionString },
    app: { connectionString },
    where: " at DATABASE_URL",
    stop: () => Promise.resolve(),
  };
}

async function prepare(server: pg.PoolConfig): Promise<string> {
  const admin = openAdminDatabase(server);
  try {
    const { rows } = await sql<{
      version: string;
    }>`select current_setting('server_version') as version`.execute(admin);
    const version = rows[0]?.version ?? "";
    if (!(parseInt(version, 10) >= oldestVersion)) {
      throw new Error(`the server is Postgres ${version}, and ${oldestVersion} is the oldest that will do`);
    }
    await migrateToLatest(admin);
    return version;
  } finally {
    await admin.destroy();
  }
}

async function ensureDefaultWorkspace(db: Kysely<Tables>): Promise<void> {
  await inWorkspace(db, defaultWorkspaceId, ({ id, trx }) =>
    trx
      .insertInto("workspace")
      .values({ workspace_id: id, name: "Default" })
      .onConflict((conflict) => conflict.doNothing())
      .execute(),
  );
}

/** An address tried over IPv6 and IPv4 fails with several errors and no message of its own. */
function reasonOf(error: unknown): string {
  if (error instanceof AggregateError) return error.errors.map(reasonOf).join("; ");
  return error instanceof Error ? error.message : String(error);
}
