import type { EstimateDocument } from "../../../src/domain/estimate-document.ts";
import type { Loadings } from "../../../src/domain/loadings.ts";
import type { Operation } from "../../../src/domain/operation.ts";
import type { Outcome, Part, Purchase, Route } from "../../../src/domain/part.ts";
import { bands, methods, trades } from "../../../src/domain/vocabulary.ts";
import type { Dice } from "./generated-dice.ts";
import { amountAbout, effectAbout, sixteenths } from "./generated-uncertain.ts";
import type { Style } from "./generated-uncertain.ts";

/** What the parts of a document are made up from. */
export interface Making {
  dice: Dice;
  style: Style;
  drivers: EstimateDocument["drivers"];
  suppliers: EstimateDocument["suppliers"];
  lots: string[];
  /** How likely an operation goes to a supplier. */
  supplierShare: number;
}

/** Now and then loadings of its own: none, one (perhaps the whole), or two. */
export function someLoadings({ dice, drivers }: Making): { drivers?: Loadings } {
  if (dice.chance(0.75)) return {};
  if (drivers.length === 0 || dice.chance(0.2)) return { drivers: {} };
  const one = dice.pick(drivers).id;
  const other = dice.pick(drivers).id;
  if (dice.chance(0.3)) return { drivers: { [one]: dice.pick([1, -1, 0.9]) } };
  return { drivers: { [one]: dice.pick([0.5, -0.4, 0.6]), [other]: dice.pick([0.7, -0.3]) } };
}

/** How long, by whom and where: at a supplier, the owner's or a shop's hours, weeks alone, or no time at all. */
function labour(making: Making): Partial<Operation> {
  const { dice, style } = making;
  const weeks = (): Partial<Operation> => ({ leadWeeks: amountAbout(dice, style, 4) });
  const hours = (by: "owner" | "shop"): Partial<Operation> => ({ by, hours: amountAbout(dice, style, 40) });
  if (making.suppliers.length > 0 && dice.chance(making.supplierShare)) {
    return {
      supplier: dice.pick(making.suppliers).id,
      ...(dice.chance(0.4) ? { lot: dice.pick(making.lots) } : {}),
      ...(dice.chance(0.2) ? hours("shop") : {}),
      ...(dice.chance(0.2) ? weeks() : {}),
    };
  }
  const rest = dice.chance(0.25) ? weeks() : {};
  return dice.pick([
    { ...hours("owner"), ...rest },
    { ...hours("owner") },
    { ...hours("shop"), ...rest },
    weeks(),
    {},
  ]);
}

/** One operation, done already with the given probability. */
export function someOperation(making: Making, id: string, doneShare: number): Operation {
  const { dice, style } = making;
  return {
    id,
    name: id,
    trade: dice.pick(trades),
    ...labour(making),
    ...(dice.chance(0.75) ? { cost: amountAbout(dice, style, 200) } : {}),
    ...(dice.chance(0.3) ? { per: dice.pick(["each", "job"] as const) } : {}),
    ...(dice.chance(doneShare) ? { state: "done" as const } : {}),
    ...someLoadings(making),
  };
}

function someOperations(making: Making, prefix: string, count: number, doneShare: number): Operation[] {
  return Array.from({ length: count }, (_, index) =>
    someOperation(making, `${prefix}-${index + 1}`, doneShare),
  );
}

function someOutcomes(making: Making, doneShare: number): Outcome[] {
  const { dice } = making;
  return sixteenths(dice, dice.whole(1, 4)).map((probability): Outcome => {
    const result = dice.pick(["right", "rework", "useless", "useless"] as const);
    if (result === "rework") {
      return {
        probability,
        result,
        operations: someOperations(making, "rework", dice.whole(0, 3), doneShare),
      };
    }
    return result === "useless" && dice.chance(0.7)
      ? { probability, result, recovers: dice.pick([0, 0.25, 0.5, 1]) }
      : { probability, result };
  });
}

function somePurchase(making: Making, operations: Operation[], doneShare: number): Purchase {
  const { dice } = making;
  const isHunted = dice.chance(0.6);
  return {
    ...(isHunted ? { findsPerMonth: dice.pick([0.25, 0.5, 1, 4]) } : {}),
    ...(isHunted && dice.chance(0.6) ? { patienceMonths: dice.pick([0, 0.5, 1, 3, 6]) } : {}),
    ...(dice.chance(0.7) ? { tries: dice.whole(1, 4) } : {}),
    ...(dice.chance(0.5) ? { judgedAfter: dice.pick(operations).id } : {}),
    ...(dice.chance(0.85) ? { outcomes: someOutcomes(making, doneShare) } : {}),
  };
}

function someRoute(making: Making, id: string, canBeFitted: boolean): Route {
  const { dice, style } = making;
  const doneShare = dice.chance(0.3) ? 0.4 : 0;
  const operations = someOperations(making, "op", dice.whole(1, 5), doneShare);
  const kind = dice.pick(["sure", "fails", "bought"] as const);
  return {
    id,
    method: dice.pick(methods),
    operations: kind === "sure" && dice.chance(0.1) ? [] : operations,
    ...(dice.chance(0.4) ? { worksFor: dice.some(bands, 0.8) } : {}),
    ...(dice.chance(0.07) ? { state: "failed" as const } : {}),
    ...(canBeFitted && dice.chance(0.04) ? { state: "fitted" as const } : {}),
    ...(kind === "fails"
      ? {
          failure: {
            probability: dice.pick([0, 0.3, 0.6, 0.9, 1]),
            after: dice.pick(operations).id,
            ...someLoadings(making),
          },
        }
      : {}),
    ...(kind === "bought" ? { purchase: somePurchase(making, operations, doneShare) } : {}),
    ...(dice.chance(0.3) ? { valueEffect: effectAbout(dice, style, 500) } : {}),
  };
}

function someCondition(making: Making): Part["condition"] {
  const { dice } = making;
  if (dice.chance(0.5)) return { band: dice.pick(bands) };
  const shares = sixteenths(dice, bands.length);
  const odds = Object.fromEntries(
    bands.flatMap((band, index) => (shares[index]! > 0 || dice.chance(0.5) ? [[band, shares[index]!]] : [])),
  );
  return { odds, ...someLoadings(making) };
}

const classes = ["frame", "bracket", "fuel-tank", "exhaust-pipe", "spokes", "wheel-rim", "badge"];

/** A part with up to four routes. */
export function somePart(making: Making, id: string): Part {
  const { dice, style } = making;
  const routes: Route[] = [];
  for (let index = dice.chance(0.05) ? 0 : dice.whole(1, 4); index > 0; index -= 1) {
    const canBeFitted = routes.every((route) => route.state !== "fitted");
    routes.push(someRoute(making, `route-${routes.length + 1}`, canBeFitted));
  }
  return {
    id,
    name: id,
    class: dice.pick(classes),
    condition: someCondition(making),
    routes,
    ...(dice.chance(0.3) ? { quantity: dice.pick([2, 3, 4, 1.5]) } : {}),
    ...(dice.chance(0.4) ? { ifUnresolved: { valueEffect: effectAbout(dice, style, 800) } } : {}),
  };
}
