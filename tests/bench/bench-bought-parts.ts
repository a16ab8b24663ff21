import type { Operation } from "../../src/domain/operation.ts";
import type { Part } from "../../src/domain/part.ts";
import { buy, own, pert } from "./bench-operations.ts";
import { type Making, bought, shell } from "./bench-shell.ts";

/** Hunted as old stock, with patience; a copy else. */
export function hunted({ id, dearness }: Making): Part {
  const polish: Operation = { id: "polish", name: "Polish", trade: "general", cost: pert(20, 35, 90) };
  return {
    ...shell(id, "badge"),
    routes: [
      {
        id: "old-stock",
        method: "new-old-stock",
        operations: [buy(90 * dearness)],
        purchase: {
          findsPerMonth: 0.5,
          patienceMonths: 8,
          tries: 2,
          outcomes: [
            { probability: 0.6, result: "right" },
            { probability: 0.25, result: "rework", operations: [polish] },
            { probability: 0.15, result: "useless", recovers: 0.5 },
          ],
        },
        valueEffect: 40,
      },
      bought("copy", 60 * dearness),
    ],
  };
}

/** A copy that may need fettling. */
export function fettled({ id, dearness }: Making): Part {
  const fettle: Operation = { ...own("fettle", 1.5), cost: pert(0, 10, 40) };
  return {
    ...shell(id, "exhaust-pipe"),
    routes: [
      {
        id: "copy",
        method: "reproduction",
        operations: [buy(150 * dearness)],
        purchase: {
          outcomes: [
            { probability: 0.7, result: "right" },
            { probability: 0.3, result: "rework", operations: [fettle] },
          ],
        },
      },
    ],
  };
}

/** Hunted used, else made; perhaps neither. */
export function salvaged({ id, dearness }: Making): Part {
  const make: Operation = { id: "make", name: "Make", trade: "bodywork", hours: pert(3, 5, 12), by: "shop" };
  return {
    ...shell(id, "chain-guard", { missing: 0.6, "past-saving": 0.4 }),
    routes: [
      {
        id: "used",
        method: "used",
        operations: [buy(70 * dearness), own("clean", 1)],
        purchase: { findsPerMonth: 0.7, patienceMonths: 5, judgedAfter: "buy" },
      },
      { id: "make", method: "fabricate", operations: [make] },
    ],
    ifUnresolved: { valueEffect: -120 },
  };
}

/** Two pieces bought new. */
export function renewed({ id, dearness }: Making): Part {
  return { ...shell(id, "tyre-and-tube"), quantity: 2, routes: [bought("new", 55 * dearness)] };
}
