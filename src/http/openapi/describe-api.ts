import { openAppDatabase } from "../../store/open-database.ts";
import { buildApp } from "../build-app.ts";

/** The OpenAPI description of the service, made without a database or worker threads: nothing is asked of either. */
export async function describeApi(): Promise<object> {
  const db = openAppDatabase({});
  const pool = {
    run: () => Promise.reject(new Error("nothing runs while the API is described")),
    isAlive: () => false,
    close: () => Promise.resolve(),
  };
  const app = await buildApp({ db, pool, workspaceId: "", newId: () => "" });
  const description = app.swagger();
  await app.close();
  await db.destroy();
  return description;
}
