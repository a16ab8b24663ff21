import type { Loadings } from "../../../src/domain/loadings.ts";
import type { Uncertain } from "../../../src/domain/uncertain.ts";
import type { Draw } from "./draw.ts";
import { inverseCdf } from "./inverse-cdf.ts";

/** One uncertain quantity of the document; nothing when absent. */
export class Quantity {
  private readonly constant: number | undefined;
  private readonly inverse: (p: number) => number;
  private readonly loadings: Loadings;

  constructor(uncertain: Uncertain = 0, loadings: Loadings = {}) {
    this.constant = typeof uncertain === "number" ? uncertain : undefined;
    this.inverse = inverseCdf(uncertain);
    this.loadings = loadings;
  }

  /** A value effect: may be negative. */
  effect(draw: Draw): number {
    return this.constant ?? this.inverse(draw.leaning(this.loadings));
  }

  /** A cost, hours or a share: never negative. */
  amount(draw: Draw): number {
    return Math.max(0, this.effect(draw));
  }
}
