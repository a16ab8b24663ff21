import jStat from "jstat";
import type { Loadings } from "../../../src/domain/loadings.ts";
import type { Departure } from "./departure.ts";
import type { Quantity } from "./quantity.ts";

/** One draw under way: its chance, and what it has come to so far. */
export class Draw {
  readonly random: () => number;
  readonly drivers = new Map<string, number>();
  /** Cash by line, and by supplier. */
  readonly lines: number[];
  readonly suppliers: { cash: number; departures: number }[];
  /** By supplier, lot, series and number. */
  readonly departures = new Map<string, Departure>();
  readonly presentFindings = new Set<string>();
  readonly paidFindings = new Set<string>();
  ownHours = 0;
  shopHours = 0;
  valueEffect = 0;
  private readonly drawn = new Map<Quantity, number>();

  constructor(random: () => number, driverIds: readonly string[], lineCount: number, supplierCount: number) {
    this.random = random;
    for (const id of driverIds) this.drivers.set(id, this.normal());
    this.lines = new Array<number>(lineCount).fill(0);
    this.suppliers = Array.from({ length: supplierCount }, () => ({ cash: 0, departures: 0 }));
  }

  /** A number uniform in [0, 1) that leans with the drivers. */
  leaning(loadings: Loadings): number {
    const terms = Object.entries(loadings);
    if (terms.length === 0) return this.random();
    let score = 0;
    let explained = 0;
    for (const [id, loading] of terms) {
      score += loading * this.drivers.get(id)!;
      explained += loading * loading;
    }
    return jStat.normal.cdf(score + Math.sqrt(Math.max(0, 1 - explained)) * this.normal(), 0, 1);
  }

  happens(probability: number, loadings: Loadings): boolean {
    return this.leaning(loadings) > 1 - probability;
  }

  /** A quantity that the whole draw shares. */
  once(quantity: Quantity): number {
    const known = this.drawn.get(quantity) ?? quantity.amount(this);
    this.drawn.set(quantity, known);
    return known;
  }

  private normal(): number {
    return jStat.normal.inv(this.random(), 0, 1);
  }
}
