import { DomainError } from "./domain-error.ts";

/**
 * Refuses parameters that are not finite or not in order.
 *
 * @param rule names of the values in order, for the message
 * @param values each at least the one before
 * @throws {DomainError} `values-not-ascending` when a value is below the one before, infinite or NaN
 */
export function requireAscending(rule: string, ...values: readonly number[]): void {
  const broken = values.some(
    (value, place) => !Number.isFinite(value) || (place > 0 && value < values[place - 1]!),
  );
  if (broken) throw new DomainError("values-not-ascending", `${rule}: not so for ${values.join(", ")}`);
}
