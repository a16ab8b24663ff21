import { chmod, mkdtemp, rm } from "node:fs/promises";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { randomBytes } from "node:crypto";
import { sql } from "kysely";
import type { TestProject } from "vitest/node";
import { startEmbeddedPostgres } from "../../src/store/embedded-postgres.ts";
import { migrateToLatest } from "../../src/store/migrate.ts";
import { openAdminDatabase } from "../../src/store/open-database.ts";

/** A login of the server under test, as `pg` takes it; may make databases and roles. */
export interface TestServer {
  readonly host: string;
  readonly port: number;
  readonly user: string;
  readonly password?: string;
  readonly database: string;
}

declare module "vitest" {
  interface ProvidedContext {
    testServer: TestServer;
    templateDatabase: string;
  }
}

/**
 * Before all test files: a server (TEST_DATABASE_URL's, else an embedded one of this run's own) with one
 * migrated database for the files to copy. After them: nothing of it is left.
 */
export default async function setup(project: TestProject): Promise<() => Promise<void>> {
  const url = process.env["TEST_DATABASE_URL"];
  const { testServer, stop } = url === undefined || url === "" ? await ownServer() : givenServer(url);
  const templateDatabase = `restoration_template_${randomBytes(6).toString("hex")}`;
  try {
    await onServer(testServer, `create database ${templateDatabase}`);
    const admin = openAdminDatabase({ ...testServer, database: templateDatabase });
    await migrateToLatest(admin).finally(() => admin.destroy());
  } catch (error) {
    await stop();
    throw error;
  }
  project.provide("testServer", testServer);
  project.provide("templateDatabase", templateDatabase);
  return async () => {
    await onServer(testServer, `drop database ${templateDatabase} with (force)`).finally(stop);
  };
}

/** Runs one statement as the server's administrator. */
export async function onServer(server: TestServer, statement: string): Promise<void> {
  const admin = openAdminDatabase(server);
  await sql
    .raw(statement)
    .execute(admin)
    .finally(() => admin.destroy());
}

async function ownServer() {
  const folder = await mkdtemp(join(tmpdir(), "restoration-tests-"));
  // Under root another user runs the server, and has to get to its data.
  await chmod(folder, 0o711);
  const server = await startEmbeddedPostgres({
    dataFolder: join(folder, "postgres"),
    systemFolder: join(folder, "system"),
  });
  // The data is thrown away, so nothing need wait for the disk.
  for (const setting of ["fsync", "full_page_writes", "synchronous_commit"]) {
    await onServer(server.connection, `alter system set ${setting} = off`);
  }
  await onServer(server.connection, "select pg_reload_conf()");
  const stop = async () => {
    await server.stop();
    await rm(folder, { recursive: true, force: true });
  };
  return { testServer: server.connection, stop };
}

function givenServer(address: string) {
  const url = new URL(address);
  const testServer = {
    host: decodeURIComponent(url.hostname),
    port: Number(url.port || 5432),
    user: decodeURIComponent(url.username),
    ...(url.password && { password: decodeURIComponent(url.password) }),
    database: url.pathname.slice(1) || "postgres",
  };
  return { testServer, stop: () => Promise.resolve() };
}
