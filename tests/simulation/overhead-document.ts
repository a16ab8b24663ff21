import type { EstimateDocument } from "../../src/domain/estimate-document.ts";
import type { Loadings } from "../../src/domain/loadings.ts";
import type { Uncertain } from "../../src/domain/uncertain.ts";
import { documentWith } from "./small-document.ts";

/** A document that is a plain sum: each amount an overhead of its own, all with the same loadings on one driver. */
export function sumOf(amounts: readonly Uncertain[], drivers: Loadings = {}): EstimateDocument {
  return documentWith({
    drivers: Object.keys(drivers).map((id) => ({ id, name: id })),
    overheads: amounts.map((cost, index) => ({ id: `cost-${index + 1}`, name: "Cost", cost, drivers })),
  });
}

/** The same amount so many times. */
export function copies(count: number, amount: Uncertain): Uncertain[] {
  return Array.from({ length: count }, () => amount);
}
