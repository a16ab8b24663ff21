import { type Fault, faultAt, faultOfSum } from "./fault.ts";
import { jsonPointer } from "./json-pointer.ts";
import { deepestNesting, mostValues } from "./limits.ts";

/** A value and the way to it; the way is written out only where there is a fault. */
interface Place {
  readonly value: unknown;
  readonly step: string | number;
  readonly parent: Place | undefined;
  /** 1 for the document itself. */
  readonly level: number;
}

/** Names that reach the prototype of an object. */
const forbiddenNames: ReadonlySet<string> = new Set(["__proto__", "constructor", "prototype"]);
const longestFieldName = 200;

/**
 * Finds what no document may hold anywhere, whatever its fields mean: what cannot be stored, read back or walked safely.
 *
 * @param input parsed JSON, of any depth and size
 * @returns every fault, in document order up to where a list of values is cut short by its own limit
 */
export function structureFaults(input: unknown): Fault[] {
  const faults: Fault[] = [];
  const stack: Place[] = [{ value: input, step: "", parent: undefined, level: 1 }];
  let count = 1;
  for (let place = stack.pop(); place !== undefined; place = stack.pop()) {
    const { value } = place;
    if (typeof value !== "object" || value === null) {
      const rule = scalarRule(value);
      if (rule !== undefined) faults.push(faultAt(pointerTo(place), value, rule));
    } else if (place.level > deepestNesting) {
      faults.push(faultAt(pointerTo(place), value, `at most ${deepestNesting} levels of nesting`));
    } else {
      const inside = Array.isArray(value) ? entriesOf(place, value) : fieldsOf(place, value, faults);
      count += inside.length;
      if (count > mostValues) return [...faults, tooMany(count)];
      while (inside.length > 0) stack.push(inside.pop()!);
    }
  }
  return faults;
}

function tooMany(count: number): Fault {
  return faultOfSum("", `${count} values or more`, `at most ${mostValues} values, lists and objects`);
}

function entriesOf(parent: Place, list: readonly unknown[]): Place[] {
  return list.map((value, step) => ({ value, step, parent, level: parent.level + 1 }));
}

function fieldsOf(parent: Place, object: object, faults: Fault[]): Place[] {
  return Object.entries(object).flatMap(([step, value]) => {
    const place = { value, step, parent, level: parent.level + 1 };
    if (forbiddenNames.has(step)) {
      faults.push(faultAt(pointerTo(place), value, `no field may be called ${step}`));
    } else if (step.length > longestFieldName || /[\p{Cc}\p{Cs}]/u.test(step)) {
      faults.push(
        faultAt(pointerTo(parent), step, "a field name has at most 200 characters, none of them a control"),
      );
    } else {
      return [place];
    }
    return [];
  });
}

function scalarRule(value: unknown): string | undefined {
  if (typeof value === "number") return Number.isFinite(value) ? undefined : "must be a finite number";
  if (typeof value !== "string") return undefined;
  if (value.includes("\u0000")) return "text cannot hold the character U+0000";
  return /\p{Cs}/u.test(value) ? "text cannot hold half of a surrogate pair" : undefined;
}

function pointerTo(place: Place): string {
  const path: (string | number)[] = [];
  for (let at = place; at.parent !== undefined; at = at.parent) path.push(at.step);
  return jsonPointer(path.reverse());
}
