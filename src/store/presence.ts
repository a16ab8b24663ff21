import pg from "pg";

/** How to reach an embedded server, as `pg` takes it. */
export interface EmbeddedConnection {
  readonly host: string;
  readonly port: number;
  readonly user: string;
  readonly database: string;
  readonly ssl: false;
}

/**
 * Every process that uses an embedded server holds this advisory lock, shared, in a session of its own.
 * The server itself thus knows its users, and forgets one the moment it dies, however it dies.
 */
const usersLock = 4_120_211_815;
const patienceMs = 10_000;

/**
 * Tells the server that this process uses it. Waits while the last other user is stopping it, and fails
 * once it has.
 */
export async function arrive(connection: EmbeddedConnection): Promise<pg.Client> {
  const session = new pg.Client({
    ...connection,
    connectionTimeoutMillis: patienceMs,
    application_name: "presence",
  });
  // A server that goes away ends the session; what that means is decided where the session is next used.
  session.on("error", () => undefined);
  try {
    await session.connect();
    await session.query("select pg_advisory_lock_shared($1)", [usersLock]);
    return session;
  } catch (error) {
    await session.end().catch(() => undefined);
    throw error;
  }
}

/**
 * Takes this process off the server's users.
 *
 * @returns whether it was the last. Then nobody new gets in any more while the session lasts, so that the
 *   server can be stopped under nobody's feet. A server that is gone already has no last user.
 */
export async function leave(session: pg.Client): Promise<boolean> {
  try {
    await session.query("select pg_advisory_unlock_shared($1)", [usersLock]);
    const { rows } = await session.query<{ last: boolean }>("select pg_try_advisory_lock($1) as last", [
      usersLock,
    ]);
    return rows[0]?.last ?? false;
  } catch {
    return false;
  }
}
