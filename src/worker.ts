import { hostname } from "node:os";
import { startJobRunner } from "./jobs/job-runner.ts";
import { createSimulationPool } from "./jobs/simulation-pool.ts";
import { onStop } from "./on-stop.ts";
import { readSettings } from "./settings.ts";
import { connectDatabase } from "./store/connect.ts";
import { openJobEvents } from "./store/job-events.ts";

/** Works on jobs beside the service, on the same database; there may be any number of these. */
async function start(): Promise<void> {
  const settings = readSettings(process.env);
  process.stdout.write("A worker of Restoration Reckoner is starting ...\n");
  const database = await connectDatabase(settings);
  const pool = createSimulationPool({ threads: settings.threads });
  const events = openJobEvents(database.login);
  const worker = `${hostname()} ${process.pid}`;
  const onError = (error: unknown) => process.stderr.write(`Job not finished: ${String(error)}\n`);
  const runner = startJobRunner({ db: database.db, pool, worker, atOnce: settings.threads, events, onError });
  onStop(async () => {
    await runner.stop();
    await pool.close();
    await events.close();
    await database.close();
  });
  const jobs = settings.threads === 1 ? "one job" : `${settings.threads} jobs`;
  process.stdout.write(
    `Database: ${database.describe}.\nWorker ${worker} takes ${jobs} at once.\nCtrl-C stops it.\n`,
  );
}

try {
  await start();
} catch (error) {
  process.stderr.write(`Cannot start: ${(error as Error).message}\n`);
  process.exit(1);
}
