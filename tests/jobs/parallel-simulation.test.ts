import { afterAll, beforeAll, describe, expect, test } from "vitest";
import { type ParallelSimulator, createParallelSimulator } from "../../src/jobs/parallel-simulation.ts";
import { simulate } from "../../src/simulation/simulate.ts";
import { documentWith } from "../simulation/small-document.ts";
import { withDyingThreads } from "./with-dying-threads.ts";

const document = documentWith({
  overheads: [{ id: "freight", name: "Freight", cost: { kind: "uniform", low: 10, high: 30 } }],
});
const code = (wanted: string) => expect.objectContaining({ name: "DomainError", code: wanted });

describe("createParallelSimulator()", () => {
  let simulator: ParallelSimulator;
  beforeAll(() => (simulator = createParallelSimulator({ threads: 2 })));
  afterAll(() => simulator.close());

  test("gives what simulate() gives, one simulation after the other", async () => {
    const seeds = [1, 2, 3];
    const results = await Promise.all(
      seeds.map((seed) => simulator.simulate(document, { draws: 640, seed })),
    );
    expect(results).toEqual(seeds.map((seed) => simulate(document, { draws: 640, seed })));
  });

  test("throws what the engine throws, and goes on", async () => {
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
    await expect(simulator.simulate(broken, {})).rejects.toMatchObject({
      name: "DomainError",
      code: wanted,
      message,
    });
    expect(await simulator.simulate(document, { draws: 64 })).toEqual(simulate(document, { draws: 64 }));
  });
});

describe("with threads that die", () => {
  test("gives up after the fourth death, and goes on with the next simulation", async () => {
    const simulator = withDyingThreads(1, 4);
    await expect(simulator.simulate(document, { draws: 640 })).rejects.toEqual(code("worker-lost"));
    expect(await simulator.simulate(document, { draws: 640 })).toEqual(simulate(document, { draws: 640 }));
    await simulator.close();
  });

  test("close() ends what runs, and nothing runs after it", async () => {
    const simulator = createParallelSimulator({ threads: 2 });
    const running = expect(simulator.simulate(document, { draws: 1_000_000 })).rejects.toEqual(
      code("pool-closed"),
    );
    await simulator.close();
    await running;
    await expect(simulator.simulate(document, {})).rejects.toEqual(code("pool-closed"));
  });
});
