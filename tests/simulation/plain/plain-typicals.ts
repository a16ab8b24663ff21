import type { EstimateDocument } from "../../../src/domain/estimate-document.ts";
import { typicalChance } from "./plain-chance.ts";
import { linesOf, sumOf, walkMachine } from "./plain-machine.ts";
import type { Source } from "./plain-types.ts";

/** The sum of the typical figures: the restoration cash of a machine on which everything goes the usual way. */
export function plainTypicals(document: EstimateDocument, quantile: Source["quantile"]): number {
  const walk = walkMachine(document, typicalChance(quantile), quantile);
  return (document.spent?.cash ?? 0) + (document.spent?.firmOrders ?? 0) + sumOf(linesOf(document, walk));
}
