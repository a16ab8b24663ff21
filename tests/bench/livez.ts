import { type ChildProcess, spawn } from "node:child_process";
import { once } from "node:events";
import { chmod, mkdtemp, rm } from "node:fs/promises";
import { Agent, request } from "node:http";
import { availableParallelism, loadavg, tmpdir } from "node:os";
import { join, resolve } from "node:path";
import { setTimeout as sleep } from "node:timers/promises";
import { demoDocument } from "./demo-document.ts";

/*
 * How long GET /livez takes while the service simulates all the time, and how late its event loop is.
 * Simulations are asked for by POST /v1/simulations, small ones that are answered at once and a long one
 * that becomes a job, so that every thread is busy. Target: p99 of GET /livez at most 100 ms.
 */
const targetP99Ms = 100;
const phaseMs = 15_000;
const betweenRequestsMs = 10;
const longestStartMs = 120_000;
const root = resolve(import.meta.dirname, "../..");

interface Figures {
  readonly p50: number;
  readonly p99: number;
  readonly max: number;
}

async function startServer(folder: string): Promise<{ child: ChildProcess; address: string }> {
  const loaders = ["--import", "tsx", "--import", "./tests/bench/loop-delay.ts"];
  const child = spawn(process.execPath, [...loaders, "src/server.ts"], {
    cwd: root,
    env: { ...process.env, DATABASE_URL: "", DATA_FOLDER: join(folder, "postgres"), PORT: "0" },
    stdio: ["ignore", "pipe", "inherit", "ipc"],
  });
  let output = "";
  child.stdout?.on("data", (piece: Buffer) => (output += piece.toString()));
  const deadline = Date.now() + longestStartMs;
  while (!output.includes("Ctrl-C stops it.")) {
    if (child.exitCode !== null || Date.now() > deadline) throw new Error(output);
    await sleep(50);
  }
  return { child, address: /http:\/\/127\.0\.0\.1:\d+/.exec(output)![0] };
}

async function stopServer(child: ChildProcess): Promise<void> {
  child.kill("SIGTERM");
  await once(child, "exit");
}

const document = demoDocument();
const agent = new Agent({ keepAlive: true, maxSockets: 1 });

/** @returns milliseconds until the whole answer was there */
function timeLivez(address: string): Promise<number> {
  const begun = performance.now();
  return new Promise((done, fail) => {
    request(`${address}/livez`, { agent }, (response) => {
      response.resume();
      response.on("end", () => done(performance.now() - begun));
    })
      .on("error", fail)
      .end();
  });
}

async function loopDelay(child: ChildProcess): Promise<Figures> {
  child.send("delay");
  const [figures] = (await once(child, "message")) as [Figures];
  return figures;
}

function figuresOf(times: readonly number[]): Figures {
  const sorted = times.toSorted((a, b) => a - b);
  const at = (share: number) => sorted[Math.min(sorted.length - 1, Math.floor(share * sorted.length))]!;
  return { p50: at(0.5), p99: at(0.99), max: sorted.at(-1)! };
}

async function phase({ child, address }: { child: ChildProcess; address: string }) {
  await loopDelay(child);
  const times: number[] = [];
  const until = performance.now() + phaseMs;
  while (performance.now() < until) {
    times.push(await timeLivez(address));
    await sleep(betweenRequestsMs);
  }
  return { requests: times.length, livez: figuresOf(times), loop: await loopDelay(child) };
}

/** Asks for one simulation after the other until told to stop. @returns how many of each status */
async function simulateOn(address: string, draws: number, isOver: () => boolean, prefer = "") {
  const answers: Record<number, number> = {};
  for (let asked = 0; !isOver() && asked < 10_000; asked++) {
    const response = await fetch(`${address}/v1/simulations`, {
      method: "POST",
      headers: { "content-type": "application/json", ...(prefer && { prefer }) },
      body: JSON.stringify({ document, draws, seed: asked }),
    });
    await response.text();
    answers[response.status] = (answers[response.status] ?? 0) + 1;
    // Refused, or a job was made: the threads are busy for a while.
    if (response.status !== 200) await sleep(1_000);
  }
  return answers;
}

type Phase = Awaited<ReturnType<typeof phase>>;
function print(title: string, { requests, livez, loop }: Phase): void {
  const show = ({ p50, p99, max }: Figures) =>
    [p50, p99, max].map((ms) => ms.toFixed(1).padStart(8)).join("");
  console.log(`${title.padEnd(12)}${String(requests).padStart(9)}  ${show(livez)}  ${show(loop)}`);
}

const folder = await mkdtemp(join(tmpdir(), "restoration-livez-"));
await chmod(folder, 0o711);
const server = await startServer(folder);
try {
  console.log(`${availableParallelism()} cores, load ${loadavg()[0]!.toFixed(1)} at the start\n`);
  console.log(`${" ".repeat(23)}     GET /livez, ms             event loop delay, ms`);
  console.log(`${" ".repeat(12)} requests       p50     p99     max       p50     p99     max`);
  print("idle", await phase(server));
  let over = false;
  const isOver = () => over;
  const load = Promise.all([
    simulateOn(server.address, 1_000, isOver),
    simulateOn(server.address, 1_000, isOver),
    simulateOn(server.address, 1_000_000, isOver, "respond-async"),
  ]);
  await sleep(2_000);
  const busy = await phase(server);
  over = true;
  print("simulating", busy);
  const answers = (await load).map((statuses) => JSON.stringify(statuses)).join(", ");
  console.log(`\nAnswers to the simulations asked for, by status: ${answers}`);
  const verdict = busy.livez.p99 <= targetP99Ms ? "met" : "MISSED";
  console.log(`Target: p99 of GET /livez at most ${targetP99Ms} ms: ${verdict}.`);
} finally {
  await stopServer(server.child);
  agent.destroy();
  await rm(folder, { recursive: true, force: true });
}
