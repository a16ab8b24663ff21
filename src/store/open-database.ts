import { CompiledQuery, Kysely, PostgresDialect } from "kysely";
import pg from "pg";
import type { Tables } from "./tables.ts";

const bounds = {
  connectionTimeoutMillis: 10_000,
  statement_timeout: 30_000,
  idle_in_transaction_session_timeout: 60_000,
};

/**
 * Opens a database for the app's queries. Whoever logs in, every connection takes the role
 * `restoration_app` before its first query. That role is no superuser, cannot bypass row-level security
 * and owns no table, so the policies hold even when the login is an administrator's: Postgres judges a
 * query by its current role.
 */
export function openAppDatabase(server: pg.PoolConfig): Kysely<Tables> {
  return new Kysely<Tables>({
    dialect: new PostgresDialect({
      pool: openPool({ ...bounds, ...server }),
      onCreateConnection: async (connection) => {
        await connection.executeQuery(CompiledQuery.raw("set role restoration_app"));
      },
    }),
  });
}

/** Opens a database as the login itself: for migrations, which make tables and roles. */
export function openAdminDatabase(server: pg.PoolConfig): Kysely<unknown> {
  const { connectionTimeoutMillis } = bounds;
  return new Kysely<unknown>({
    dialect: new PostgresDialect({ pool: openPool({ connectionTimeoutMillis, max: 2, ...server }) }),
  });
}

function openPool(server: pg.PoolConfig): pg.Pool {
  const pool = new pg.Pool(server);
  // A server that restarts ends idle connections; the pool opens new ones, and nobody waits for the old.
  pool.on("error", () => undefined);
  // One that ends between the queries of a transaction has no query to fail: the next one does.
  pool.on("connect", (client) => client.on("error", () => undefined));
  return pool;
}
