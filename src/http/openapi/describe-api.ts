import { createPredictor } from "../../jobs/predicted-ms.ts";
import { openAppDatabase } from "../../store/open-database.ts";
import { buildApp } from "../build-app.ts";

/** The OpenAPI description of the service, made without a database or worker threads: nothing is asked of either. */
export async function describeApi(): Promise<object> {
  const db = openAppDatabase({});
  const refuse = () => Promise.reject(new Error("nothing runs while the API is described"));
  const pool = {
    run: refuse,
    runWithProgress: refuse,
    isAlive: () => false,
    close: () => Promise.resolve(),
  };
  const jobEvents = { onChanged: () => () => undefined };
  const predictor = createPredictor();
  const app = await buildApp({ db, pool, predictor, jobEvents, workspaceId: "", newId: () => "" });
  const description = app.swagger();
  await app.close();
  await db.destroy();
  return description;
}
