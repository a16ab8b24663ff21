import type { Program } from "./program.ts";

/**
 * Whether something in the document may happen in a few draws, or in none of those made: an event, a choice, one of a few
 * values, a draw raised to its floor, a hunt given up. Where nothing may, what is equal in every draw is certain.
 *
 * @param program after its draws were made, so that everything drawn is compiled
 */
export function hasRareEvents({ quantities, document }: Program): boolean {
  return (
    quantities.some(
      ({ kind, floor, values }) => kind === "steps" || (kind === "table" && floor > values[0]!),
    ) ||
    document.parts.some(({ routes }) => routes.some(({ purchase }) => purchase?.patienceMonths !== undefined))
  );
}
