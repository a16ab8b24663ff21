import type { EstimateDocument } from "../../../src/domain/estimate-document.ts";
import type { Operation } from "../../../src/domain/operation.ts";
import type { Part, Route } from "../../../src/domain/part.ts";
import type { Dice } from "./generated-dice.ts";

/** An operation with its level: an `after` always points to a lower one, so nothing can wait for itself. */
interface Placed {
  operation: Operation;
  part: Part;
  level: number;
  /** How other lists name it; rework can't be named from outside. */
  reference: string | undefined;
}

/** Levels rise along a part's chain; a possible visit, and a bought route with all its tries, is on one level. */
function placeParts(parts: Part[], dice: Dice): Placed[] {
  return parts.flatMap((part) => {
    let level = dice.whole(0, 4);
    return part.routes.flatMap((route) => {
      level += 1;
      const placed = route.purchase ? placeBought(part, route, level) : placeRoute(part, route, level);
      level = Math.max(level, ...placed.map((each) => each.level));
      return placed;
    });
  });
}

function placeBought(part: Part, route: Route, level: number): Placed[] {
  const rework = (route.purchase?.outcomes ?? []).flatMap((outcome) => outcome.operations ?? []);
  return [
    ...route.operations.map((operation) => placeOne(part, route, operation, level)),
    ...rework.map((operation) => ({ operation, part, level, reference: undefined })),
  ];
}

function placeRoute(part: Part, route: Route, first: number): Placed[] {
  let level = first;
  let visiting: string | undefined;
  return route.operations.map((operation) => {
    if (operation.state !== "done") {
      const place = operation.supplier && `${operation.supplier}/${operation.lot ?? ""}`;
      if (place === undefined || place !== visiting) level += 1;
      visiting = place;
    }
    return placeOne(part, route, operation, level);
  });
}

function placeOne(part: Part, route: Route, operation: Operation, level: number): Placed {
  return { operation, part, level, reference: `${part.id}/${route.id}/${operation.id}` };
}

/** Adds precedence between parts, within lists and to and from whole-machine work, without a cycle. */
export function addPrecedence(document: EstimateDocument, dice: Dice, share: number): void {
  const placed = placeParts(document.parts, dice);
  const before = (document.wholeMachine?.before ?? []).map((operation) => `whole/${operation.id}`);
  for (const { operation, part, level } of placed) {
    const lower = placed.filter((other) => other.part !== part && other.level < level && other.reference);
    const after = [
      ...(lower.length > 0 && dice.chance(share) ? [dice.pick(lower).reference!] : []),
      ...(lower.length > 0 && dice.chance(share / 3) ? [dice.pick(lower).reference!] : []),
      ...(before.length > 0 && dice.chance(0.03) ? [dice.pick(before)] : []),
    ];
    if (after.length > 0) operation.after = [...new Set(after)];
  }
  const lists = [
    document.wholeMachine?.before ?? [],
    document.wholeMachine?.after ?? [],
    ...document.parts.flatMap((part) => part.routes.map((route) => route.operations)),
  ];
  for (const list of lists) addWithinList(list, dice);
  for (const operation of document.wholeMachine?.after ?? []) {
    const reference = placed.length > 0 && dice.chance(0.1) ? dice.pick(placed).reference : undefined;
    if (reference) operation.after = [...(operation.after ?? []), reference];
  }
}

function addWithinList(list: Operation[], dice: Dice): void {
  for (const [index, operation] of list.entries()) {
    if (index > 0 && dice.chance(0.05)) {
      operation.after = [...(operation.after ?? []), dice.pick(list.slice(0, index)).id];
    }
  }
}
