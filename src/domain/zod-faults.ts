import type { z } from "zod";
import { counted } from "./counted.ts";
import { type Fault, faultAt, faultOfSum } from "./fault.ts";
import { jsonPointer } from "./json-pointer.ts";
import { oneOf, unknownField } from "./plain-rule.ts";

type Issue = z.core.$ZodIssue;
type SizeIssue = z.core.$ZodIssueTooBig | z.core.$ZodIssueTooSmall;
type Path = readonly PropertyKey[];

/**
 * Turns what a schema found into faults, each at its own place: an unknown or missing field at that field, a union at
 * the branch that was meant.
 *
 * @param error what the schema found
 * @param input what it was given
 */
export function zodFaults(error: z.core.$ZodError, input: unknown): Fault[] {
  return faultsIn(error.issues, [], input);
}

function faultsIn(issues: readonly Issue[], base: Path, input: unknown): Fault[] {
  const worthTelling = issues.filter((issue, place) => !isLooser(issue, issues[place + 1]));
  return worthTelling.flatMap((issue) => issueFaults(issue, base, input));
}

/** A whole number beyond all that are exact breaks two limits at once: the next issue is the one that was set. */
function isLooser(issue: Issue, next: Issue | undefined): boolean {
  if (next === undefined || jsonPointer(issue.path) !== jsonPointer(next.path)) return false;
  if (issue.code === "too_big" && next.code === "too_big") return issue.maximum > next.maximum;
  return issue.code === "too_small" && next.code === "too_small" && issue.minimum < next.minimum;
}

function issueFaults(issue: Issue, base: Path, input: unknown): Fault[] {
  const path = [...base, ...issue.path];
  if (issue.code === "unrecognized_keys") {
    return issue.keys.map((key) => {
      const field = [...path, key];
      return faultAt(jsonPointer(field), valueAt(input, field), unknownField);
    });
  }
  if (issue.code === "invalid_key") {
    return [faultAt(jsonPointer(path), path.at(-1), issue.issues[0]?.message ?? issue.message)];
  }
  if (issue.code === "invalid_union" && issue.errors.length > 0) return unionFaults(issue, base, input);
  if (issue.code === "too_big" || issue.code === "too_small") return [sizeFault(issue, path, input)];
  return [fault(path, input, issue.message)];
}

function fault(path: Path, input: unknown, rule: string): Fault {
  const value = valueAt(input, path);
  return faultAt(jsonPointer(path), value, value === undefined ? "required" : rule);
}

/** A list or text of the wrong length is shown by its length; a number that was sent as text is not. */
function sizeFault({ origin, message }: SizeIssue, path: Path, input: unknown): Fault {
  const value = valueAt(input, path);
  if (origin === "array" && Array.isArray(value))
    return faultOfSum(jsonPointer(path), counted(value.length, "entry", "entries"), message);
  if (origin === "string" && typeof value === "string")
    return faultOfSum(jsonPointer(path), counted(value.length, "character"), message);
  return fault(path, input, message);
}

function valueAt(input: unknown, path: Path): unknown {
  let value = input;
  for (const step of path) {
    if (typeof value !== "object" || value === null || !Object.hasOwn(value, step)) return undefined;
    value = (value as Record<PropertyKey, unknown>)[step];
  }
  return value;
}

/** One form a union allows, with what does not fit it. */
interface Branch {
  readonly issues: readonly Issue[];
  readonly union: z.core.$ZodIssueInvalidUnion;
}

function unionFaults(union: z.core.$ZodIssueInvalidUnion, base: Path, input: unknown): Fault[] {
  const path = [...base, ...union.path];
  const rightType = branchesOf(union).filter(({ issues }) => !issues.some(isWrongType));
  if (rightType.length === 0) return [fault(path, input, union.message)];
  const rightKind = rightType.filter(({ issues }) => !issues.some(isWrongKind));
  if (rightKind.length === 0) return [kindFault(rightType, path, input)];
  const strays = rightKind.map(({ issues }) => strayFields(issues, path, input));
  const fewest = Math.min(...strays);
  const closest = rightKind[strays.indexOf(fewest)]!;
  const isUnclear = strays.indexOf(fewest) !== strays.lastIndexOf(fewest);
  if (isUnclear) return [fault(path, input, closest.union.message)];
  return faultsIn(closest.issues, path, input);
}

/** How many of its own fields are missing or unknown in this form, whatever is wrong inside the others. */
function strayFields(issues: readonly Issue[], path: Path, input: unknown): number {
  const strays = issues.map((issue) => {
    if (issue.code === "unrecognized_keys") return issue.path.length === 0 ? issue.keys.length : 0;
    return issue.path.length === 1 && valueAt(input, [...path, ...issue.path]) === undefined ? 1 : 0;
  });
  return strays.reduce<number>((sum, count) => sum + count, 0);
}

/** The forms of a union, those of a union within it at the same place included. */
function branchesOf(union: z.core.$ZodIssueInvalidUnion): Branch[] {
  return union.errors.flatMap((issues) => {
    const [first] = issues;
    const isUnion = first?.code === "invalid_union" && first.path.length === 0 && first.errors.length > 0;
    return isUnion ? branchesOf(first) : [{ issues, union }];
  });
}

function isWrongType(issue: Issue): boolean {
  return issue.code === "invalid_type" && issue.path.length === 0;
}

/** Another form is told apart by the one value its field of that name must have. */
function isWrongKind(issue: Issue): boolean {
  return issue.path.length === 1 && kindsAllowed(issue).length > 0;
}

function kindsAllowed(issue: Issue): readonly unknown[] {
  if (issue.code === "invalid_union") return ("options" in issue && issue.options) || [];
  return issue.code === "invalid_value" && issue.values.length === 1 ? issue.values : [];
}

function kindFault(branches: readonly Branch[], path: Path, input: unknown): Fault {
  const wrong = branches.flatMap(({ issues }) => issues.filter(isWrongKind));
  const allowed = new Set(wrong.flatMap(kindsAllowed));
  return fault([...path, ...wrong[0]!.path], input, oneOf([...allowed]));
}
