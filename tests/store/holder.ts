import { spawn } from "node:child_process";
import { once } from "node:events";
import { createInterface } from "node:readline";
import { fileURLToPath } from "node:url";
import type { Account } from "../../src/store/run-program.ts";
import type { EmbeddedPostgres } from "../../src/store/embedded-postgres.ts";

const checkout = fileURLToPath(new URL("../..", import.meta.url));

/** Another process that uses an embedded Postgres. */
export interface Holder {
  readonly pid: number;
  readonly server: Pick<EmbeddedPostgres, "connection" | "dataFolder" | "adopted">;
  /** Runs a statement in that process. @returns its rows, or the error as text */
  ask(statement: string): Promise<unknown>;
  /** Lets it leave the server in order and end. @returns its exit code */
  leave(): Promise<number | null>;
  kill(signal: "SIGKILL"): Promise<void>;
}

/** Starts such a process in a process group of its own. */
export async function startHolder(
  dataFolder: string,
  systemFolder: string,
  { account, root = checkout }: { account?: Account | undefined; root?: string } = {},
): Promise<Holder> {
  const program = "tests/store/fixtures/hold-embedded-postgres.ts";
  const child = spawn(process.execPath, ["--import", "tsx", program, dataFolder, systemFolder], {
    ...account,
    cwd: root,
    detached: true,
    stdio: ["pipe", "pipe", "pipe"],
  });
  let complaint = "";
  child.stderr.on("data", (chunk: Buffer) => (complaint += chunk.toString()));
  const exit = once(child, "exit") as Promise<[number | null]>;
  const lines = createInterface({ input: child.stdout })[Symbol.asyncIterator]();
  const nextLine = async (): Promise<unknown> => {
    const { value, done } = await lines.next();
    if (done) throw new Error(`the holder ended: ${complaint}`);
    return JSON.parse(value);
  };
  const server = (await nextLine()) as Holder["server"];
  return {
    pid: child.pid ?? 0,
    server,
    ask: (statement) => {
      child.stdin.write(`${statement}\n`);
      return nextLine();
    },
    leave: async () => {
      child.stdin.end();
      return (await exit)[0];
    },
    kill: async (signal) => {
      child.kill(signal);
      await exit;
    },
  };
}
