import { availableParallelism } from "node:os";
import { fileURLToPath } from "node:url";

const defaultDataFolder = fileURLToPath(new URL("../.data/postgres", import.meta.url));

/** What every process of the service is told by its environment. */
export interface Settings {
  readonly databaseUrl: string | undefined;
  readonly dataFolder: string;
  /** Worker threads that simulate. */
  readonly threads: number;
}

export function readSettings(env: NodeJS.ProcessEnv): Settings {
  return {
    databaseUrl: env["DATABASE_URL"] || undefined,
    dataFolder: env["DATA_FOLDER"] || defaultDataFolder,
    threads: wholeSetting(env, "THREADS", 1, 64) ?? Math.max(1, availableParallelism() - 1),
  };
}

/** A whole number; undefined when it is not set. */
export function wholeSetting(
  env: NodeJS.ProcessEnv,
  name: string,
  least: number,
  most: number,
): number | undefined {
  const written = env[name];
  if (written === undefined || written === "") return undefined;
  const value = Number(written);
  if (/^\d+$/.test(written) && value >= least && value <= most) return value;
  throw new Error(`${name} is "${written}": it must be a whole number from ${least} to ${most}`);
}
