import type { Operation } from "../../src/domain/operation.ts";
import type { Part } from "../../src/domain/part.ts";
import { away, buy, own, pert } from "./bench-operations.ts";
import { type Making, bought, shell } from "./bench-shell.ts";

/** Stripped at home and powder-coated. */
export function coated({ id, dearness }: Making): Part {
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

/** Replated, which may open what the old chrome hid. */
export function plated({ id, dearness }: Making): Part {
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

/** Blasted, painted, and fitted once the frame is back. */
export function painted({ id, dearness, frame }: Making): Part {
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

/** Four pieces in the zinc lot. */
export function zincPlated({ id, dearness }: Making): Part {
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

/** Bored by a shop, or another bought. */
export function machined({ id, dearness }: Making): Part {
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

/** Kept if its condition allows. */
export function cleaned({ id, dearness }: Making): Part {
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

/** Mended at home, which may not last. */
export function rewired({ id, dearness }: Making): Part {
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

/** Recovered by the trimmer. */
export function trimmed({ id, dearness }: Making): Part {
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
