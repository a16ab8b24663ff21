import { shownValue } from "./shown-value.ts";

/** One broken rule of a document: where, what stands there, and what the rule is. */
export interface Fault {
  /** RFC 6901 JSON Pointer; "" is the whole document. A missing field is pointed to where it should stand. */
  readonly pointer: string;
  /** What stands there, or what it comes to, in at most 80 characters. */
  readonly value: string;
  /** A plain sentence. */
  readonly rule: string;
}

/** Faults listed at most; how many there are beyond is said in one more. */
export const mostFaults = 100;

/**
 * Makes a fault.
 *
 * @param pointer RFC 6901 JSON Pointer to the place
 * @param value what stands there, of any size
 * @param rule a plain sentence
 */
export function faultAt(pointer: string, value: unknown, rule: string): Fault {
  return { pointer, value: shownValue(value), rule };
}

/**
 * Makes a fault of something that was counted or added up.
 *
 * @param pointer RFC 6901 JSON Pointer to the list
 * @param value what it comes to, with its unit
 * @param rule a plain sentence
 */
export function faultOfSum(pointer: string, value: string, rule: string): Fault {
  return { pointer, value, rule };
}

/**
 * Keeps a list of faults readable.
 *
 * @param faults any number
 * @returns the first 100, and one that says how many more there are
 */
export function firstFaults(faults: readonly Fault[]): Fault[] {
  if (faults.length <= mostFaults) return [...faults];
  const rest = faultOfSum(
    "",
    `${faults.length - mostFaults} more`,
    `only the first ${mostFaults} faults are listed`,
  );
  return [...faults.slice(0, mostFaults), rest];
}
