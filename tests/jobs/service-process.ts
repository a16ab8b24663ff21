import { spawn } from "node:child_process";
import { once } from "node:events";
import { resolve } from "node:path";
import { setTimeout as sleep } from "node:timers/promises";

const root = resolve(import.meta.dirname, "../..");
const longestStartMs = 60_000;

/** A process of the service's own, as `npm start` and `npm run worker` make them. */
export interface ServiceProcess {
  readonly pid: number;
  output(): string;
  signal(signal: NodeJS.Signals): void;
  /** Its exit code; null when a signal ended it. */
  readonly ended: Promise<number | null>;
}

/** Starts one and waits until it is ready. */
export async function startProcess(
  program: "src/server.ts" | "src/worker.ts",
  env: Record<string, string>,
): Promise<ServiceProcess> {
  const child = spawn(process.execPath, ["--import", "tsx", program], {
    cwd: root,
    env: { ...process.env, DATABASE_URL: "", PORT: "0", THREADS: "1", ...env },
  });
  let output = "";
  child.stdout.on("data", (piece: Buffer) => (output += piece.toString()));
  child.stderr.on("data", (piece: Buffer) => (output += piece.toString()));
  const ended = once(child, "exit").then(([code]) => code as number | null);
  const deadline = Date.now() + longestStartMs;
  while (!output.includes("Ctrl-C stops it.")) {
    if (child.exitCode !== null || Date.now() > deadline)
      throw new Error(`${program} did not start: ${output}`);
    await sleep(20);
  }
  return { pid: child.pid!, output: () => output, signal: (signal) => void child.kill(signal), ended };
}
