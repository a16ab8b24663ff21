import { type Fault, faultOfSum } from "../fault.ts";

/** Room for probabilities written with a few digits. */
const tolerance = 1e-9;

/**
 * Finds probabilities that are not the whole of what can happen.
 *
 * @param pointer to where they stand
 * @param probabilities each in [0, 1]
 * @param rule a plain sentence
 */
export function sumFaults(pointer: string, probabilities: readonly number[], rule: string): Fault[] {
  const sum = probabilities.reduce((total, probability) => total + probability, 0);
  return Math.abs(sum - 1) <= tolerance ? [] : [faultOfSum(pointer, String(sum), rule)];
}
