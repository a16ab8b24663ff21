import type { Supplier } from "../../../src/domain/estimate-document.ts";
import type { Draw } from "./draw.ts";
import { Quantity } from "./quantity.ts";
import type { Terms } from "./terms.ts";

/** A supplier with its prices. */
export class Shop {
  readonly id: string;
  readonly position: number;
  readonly taxFactor: number;
  private readonly minimumCharge: number;
  private readonly batchCharge: Quantity;
  private readonly freight: Quantity;

  constructor(terms: Terms, supplier: Supplier, position: number) {
    const loadings = terms.loadings(supplier.drivers, supplier.trade, 0.55);
    this.id = supplier.id;
    this.position = position;
    this.taxFactor = terms.taxFactor(supplier.taxPercent);
    this.minimumCharge = supplier.minimumCharge ?? 0;
    this.batchCharge = new Quantity(supplier.batchCharge, loadings);
    this.freight = new Quantity(supplier.freightPerBatch, loadings);
  }

  /** What a departure costs beyond its operations. */
  extraCash(draw: Draw, worth: number): number {
    const topUp = Math.max(0, this.minimumCharge - worth);
    return (topUp + this.batchCharge.amount(draw) + this.freight.amount(draw)) * this.taxFactor;
  }
}
