import { afterAll, beforeAll, describe, expect, test } from "vitest";
import { createSimulationPool } from "../../src/jobs/simulation-pool.ts";
import type { SimulationPool } from "../../src/jobs/simulation-pool.ts";
import { simulate } from "../../src/simulation/simulate.ts";
import { documentWith, partWith } from "../simulation/small-document.ts";

const document = documentWith({
  parts: [
    partWith("rim", [
      {
        id: "replate",
        method: "replate",
        operations: [
          {
            id: "plate",
            name: "Plate",
            trade: "plating",
            cost: { kind: "pert", low: 80, mode: 100, high: 160 },
          },
        ],
      },
    ]),
  ],
});
const titled = (title: string) => ({ ...document, title });
const code = (wanted: string) => expect.objectContaining({ name: "DomainError", code: wanted });

describe("with the engine", () => {
  let pool: SimulationPool;
  beforeAll(() => (pool = createSimulationPool({ threads: 2 })));
  afterAll(() => pool.close());

  test("run() gives what simulate() gives, on any thread", async () => {
    const options = { draws: 1_000, seed: 5 };
    const expected = simulate(document, options);
    const results = await Promise.all(Array.from({ length: 6 }, () => pool.run(document, options)));
    for (const result of results) expect(result).toEqual(expected);
  });

  test("runWithProgress() gives the same, and tells on the way how far it is", async () => {
    const options = { draws: 200_000, seed: 5 };
    const told: number[] = [];
    const result = await pool.runWithProgress(document, options, ({ progress }) => told.push(progress));
    expect(result).toEqual(simulate(document, options));
    // A fast machine has nothing to tell.
    expect(told).toEqual([...new Set(told)].sort((a, b) => a - b));
  });

  test("run() throws what the engine throws, with its code and message", async () => {
    const broken = documentWith({});
    broken.overheads.push({
      id: "freight",
      name: "Freight",
      cost: { kind: "percentiles", p10: 9, p50: 5, p90: 2 },
    });
    let thrown: unknown;
    try {
      simulate(broken);
    } catch (error) {
      thrown = error;
    }
    const { code: wanted, message } = thrown as { code: string; message: string };
    await expect(pool.run(broken, {})).rejects.toMatchObject({
      name: "DomainError",
      code: wanted,
      message,
    });
  });

  test("run() gives a running simulation up, and the next one runs", async () => {
    const busy = createSimulationPool({ threads: 1 });
    const giving = new AbortController();
    const long = busy.run(document, { draws: 1_000_000 }, giving.signal);
    const behind = busy.run(document, { draws: 64 });
    giving.abort();
    await expect(long).rejects.toEqual(code("simulation-cancelled"));
    expect(await behind).toEqual(simulate(document, { draws: 64 }));
    await busy.close();
  });
});

describe("with a worker that does as it is told", () => {
  const worker = new URL("./fixtures/dying-worker.mjs", import.meta.url);
  const poolOf = (options: { threads: number; mostWaiting?: number }) =>
    createSimulationPool({ ...options, worker });

  test.each(["exit", "throw", "fill the memory"])("run() survives a thread told to %s", async (fate) => {
    const pool = poolOf({ threads: 1 });
    await expect(pool.run(titled(fate), {})).rejects.toEqual(code("worker-lost"));
    expect(await pool.run(document, { seed: 9 })).toEqual({ seed: 9 });
    expect(pool.isAlive()).toBe(true);
    await pool.close();
  });

  test("run() does not lose what waits behind a thread that dies", async () => {
    const pool = poolOf({ threads: 1 });
    const [first, second, third] = await Promise.allSettled([
      pool.run(titled("exit"), {}, new AbortController().signal),
      pool.run(document, { seed: 2 }, new AbortController().signal),
      pool.run(document, { seed: 3 }),
    ]);
    expect(first).toEqual({ status: "rejected", reason: code("worker-lost") });
    expect(second).toEqual({ status: "fulfilled", value: { seed: 2 } });
    expect(third).toEqual({ status: "fulfilled", value: { seed: 3 } });
    await pool.close();
  });

  test("run() refuses at once what would wait too long, with and without a signal", async () => {
    const pool = poolOf({ threads: 1, mostWaiting: 2 });
    const end = new AbortController();
    const taken = [1, 2, 3].map((seed) => pool.run(titled("never end"), { seed }, end.signal));
    await expect(pool.run(document, {}, end.signal)).rejects.toEqual(code("pool-full"));
    await expect(pool.run(document, {})).rejects.toEqual(code("pool-full"));
    end.abort();
    for (const one of taken) await expect(one).rejects.toEqual(code("simulation-cancelled"));
    expect(await pool.run(document, { seed: 4 })).toEqual({ seed: 4 });
    await pool.close();
  });

  test("runWithProgress() waits however many do, and is given up like any other", async () => {
    const pool = poolOf({ threads: 1, mostWaiting: 0 });
    const [first, second] = [new AbortController(), new AbortController()];
    const endless = (signal: AbortSignal) =>
      pool.runWithProgress(titled("never end"), {}, () => undefined, signal);
    const running = endless(first.signal);
    const behind = endless(second.signal);
    const last = pool.runWithProgress(document, { seed: 8 }, () => undefined);
    second.abort();
    await expect(behind).rejects.toEqual(code("simulation-cancelled"));
    first.abort();
    await expect(running).rejects.toEqual(code("simulation-cancelled"));
    expect(await last).toEqual({ seed: 8 });
    await pool.close();
  });

  test("run() does not begin what is given up already", async () => {
    const pool = poolOf({ threads: 1 });
    await expect(pool.run(document, {}, AbortSignal.abort())).rejects.toEqual(code("simulation-cancelled"));
    await pool.close();
  });

  test("close() ends what runs, and nothing runs after it", async () => {
    const pool = poolOf({ threads: 1 });
    const running = pool.run(titled("never end"), {});
    const outcome = expect(running).rejects.toEqual(code("worker-lost"));
    await pool.close();
    await outcome;
    expect(pool.isAlive()).toBe(false);
    await expect(pool.run(document, {})).rejects.toEqual(code("pool-closed"));
  });

  test("createSimulationPool() starts at least one thread", async () => {
    const pool = poolOf({ threads: 0 });
    expect(await pool.run(document, { seed: 1 })).toEqual({ seed: 1 });
    await pool.close();
  });
});
