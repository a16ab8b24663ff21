import type { Operation } from "../../src/domain/operation.ts";
import type { Part, Route } from "../../src/domain/part.ts";
import type { Uncertain } from "../../src/domain/uncertain.ts";
import type { Trade } from "../../src/domain/vocabulary.ts";

/** What a kind of part is made from: its place in the document and how dear it is beside others of its kind. */
interface Making {
  id: string;
  dearness: number;
  /** Path of the operation that the last of its fitting waits for. */
  frame: string | undefined;
}

const pert = (low: number, mode: number, high: number): Uncertain => ({ kind: "pert", low, mode, high });
const own = (id: string, hours: number): Operation => ({
  id,
  name: id,
  trade: "mechanical",
  hours: { kind: "percentiles", p10: hours * 0.6, p50: hours, p90: hours * 2.2 },
  by: "owner",
});
const buy = (amount: number, leadWeeks: Uncertain = { kind: "lognormal", p10: 0.5, p90: 3 }): Operation => ({
  id: "buy",
  name: "Buy",
  trade: "parts",
  cost: { kind: "lognormal", p10: amount * 0.7, p90: amount * 1.6 },
  leadWeeks,
});
const away = (id: string, trade: Trade, supplier: string, amount: number, lot?: string): Operation => ({
  id,
  name: id,
  trade,
  supplier,
  ...(lot !== undefined && { lot }),
  cost: pert(amount * 0.7, amount, amount * 2.1),
});
const bought = (id: string, amount: number): Route => ({
  id,
  method: "reproduction",
  operations: [buy(amount)],
});

function plated({ id, dearness }: Making): Part {
  return {
    ...shell(id, "fender", { sound: 0.1, tired: 0.45, poor: 0.35, "past-saving": 0.1 }),
    routes: [
      {
        id: "replate",
        method: "replate",
        operations: [
          own("prepare", 2),
          away("plate", "plating", "plater", 120 * dearness, "chrome"),
          own("refit", 1),
        ],
        failure: { probability: 0.15, after: "plate", drivers: { plating: 0.4 } },
      },
      bought("copy", 190 * dearness),
    ],
  };
}

function painted({ id, dearness, frame }: Making): Part {
  const fit = { ...own("fit", 1.5), ...(frame !== undefined && { after: [frame] }) };
  return {
    ...shell(id, "fuel-tank"),
    routes: [
      {
        id: "repaint",
        method: "repaint",
        operations: [
          away("blast", "blasting", "coater", 30 * dearness),
          away("paint", "paint", "painter", 140 * dearness),
          fit,
        ],
        valueEffect: { kind: "normal", mean: 60, sd: 25 },
      },
    ],
  };
}

function zincPlated({ id, dearness }: Making): Part {
  return {
    ...shell(id, "bracket"),
    quantity: 4,
    routes: [
      {
        id: "zinc",
        method: "zinc-plate",
        operations: [{ ...away("zinc", "plating", "plater", 6 * dearness, "zinc") }, own("refit", 0.3)],
      },
    ],
  };
}

function hunted({ id, dearness }: Making): Part {
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

function coated({ id, dearness }: Making): Part {
  return {
    ...shell(id, "frame"),
    routes: [
      {
        id: "coat",
        method: "powder-coat",
        operations: [own("strip", 3), away("coat", "powder", "coater", 110 * dearness)],
      },
    ],
  };
}

function machined({ id, dearness }: Making): Part {
  const bore: Operation = {
    id: "bore",
    name: "Bore",
    trade: "machining",
    hours: pert(1, 2, 5),
    by: "shop",
    cost: pert(20 * dearness, 40 * dearness, 120 * dearness),
    leadWeeks: { kind: "lognormal", p10: 1, p90: 6 },
  };
  return {
    ...shell(id, "engine-top-end", { sound: 0.2, tired: 0.5, poor: 0.2, "past-saving": 0.1 }),
    routes: [
      {
        id: "rebore",
        method: "repair",
        operations: [bore, own("assemble", 2)],
        failure: { probability: 0.1, after: "bore" },
      },
      {
        id: "another",
        method: "used",
        operations: [buy(220 * dearness)],
        purchase: {
          findsPerMonth: 1,
          tries: 3,
          outcomes: [
            { probability: 0.7, result: "right" },
            { probability: 0.3, result: "useless", recovers: 0.4 },
          ],
        },
      },
    ],
  };
}

function cleaned({ id, dearness }: Making): Part {
  return {
    ...shell(id, "levers-and-controls", {
      sound: 0.4,
      tired: 0.3,
      poor: 0.1,
      "past-saving": 0.1,
      missing: 0.1,
    }),
    routes: [{ id: "clean", method: "reuse", operations: [own("clean", 1)] }, bought("copy", 45 * dearness)],
  };
}

function rewired({ id, dearness }: Making): Part {
  return {
    ...shell(id, "wiring-harness", { tired: 0.5, poor: 0.3, "past-saving": 0.2 }),
    routes: [
      {
        id: "mend",
        method: "repair",
        operations: [own("mend", 3)],
        failure: { probability: 0.3, after: "mend" },
      },
      { id: "replace", method: "reproduction", operations: [buy(95 * dearness), own("fit", 2)] },
    ],
  };
}

function fettled({ id, dearness }: Making): Part {
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

function trimmed({ id, dearness }: Making): Part {
  return {
    ...shell(id, "seat-or-trim"),
    routes: [
      {
        id: "recover",
        method: "repair",
        operations: [away("recover", "upholstery", "trimmer", 160 * dearness)],
      },
    ],
  };
}

function salvaged({ id, dearness }: Making): Part {
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

function renewed({ id, dearness }: Making): Part {
  return { ...shell(id, "tyre-and-tube"), quantity: 2, routes: [bought("new", 55 * dearness)] };
}

type Odds = Extract<Part["condition"], { odds: unknown }>["odds"];

function shell(id: string, kind: string, odds?: Odds): Omit<Part, "routes"> {
  return { id, name: id, class: kind, condition: odds ? { odds } : { band: "tired" } };
}

/** Twelve kinds of part with 29 operations between them. */
const kinds = [
  coated,
  plated,
  painted,
  zincPlated,
  hunted,
  machined,
  cleaned,
  rewired,
  fettled,
  trimmed,
  salvaged,
  renewed,
];

/**
 * The part at a place of the benchmark's document.
 *
 * @param place from 0; every twelfth is of the same kind, with money of its own
 */
export function benchPart(place: number): Part {
  const frame = place - (place % kinds.length);
  return kinds[place % kinds.length]!({
    id: `part-${place + 1}`,
    dearness: 0.6 + ((place * 7) % 19) / 16,
    frame: place === frame ? undefined : `part-${frame + 1}/coat/coat`,
  });
}
