import { expect } from "vitest";

/** Fails unless a value lies within a tolerance of what is expected, saying where. */
export function expectWithin(value: number, expected: number, tolerance: number, where = ""): void {
  const error = Math.abs(value - expected);
  expect(error <= tolerance, `${where} ${value} is ${error} from ${expected}, allowed ${tolerance}`).toBe(
    true,
  );
}

/** Fails unless a value is right to a share of what is expected, saying where. */
export function expectRelative(value: number, expected: number, tolerance: number, where = ""): void {
  expectWithin(value, expected, tolerance * Math.abs(expected), where);
}
