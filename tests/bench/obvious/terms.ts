import type { EstimateDocument } from "../../../src/domain/estimate-document.ts";
import type { Loadings } from "../../../src/domain/loadings.ts";
import type { Trade } from "../../../src/domain/vocabulary.ts";
import { Quantity } from "./quantity.ts";
import { Shop } from "./shop.ts";

/** What every part of the document refers to: suppliers, rates, tax, default loadings. */
export class Terms {
  readonly document: EstimateDocument;
  readonly shops: Map<string, Shop>;
  /** Cash an hour of the bench, in a shop's own document. */
  readonly benchRate: Quantity | undefined;
  private readonly rates: Map<string, Quantity>;

  constructor(document: EstimateDocument) {
    this.document = document;
    this.shops = new Map(
      document.suppliers.map((supplier, position) => [supplier.id, new Shop(this, supplier, position)]),
    );
    this.benchRate = document.shop && new Quantity(document.shop.costRate);
    this.rates = new Map(
      Object.entries(document.labour.shopRates).map(([trade, rate]) => [trade, new Quantity(rate)]),
    );
  }

  rate(trade: Trade): Quantity {
    return this.rates.get(trade)!;
  }

  taxFactor(percent = this.document.taxPercent ?? 0): number {
    return this.document.reclaimsTax ? 1 : 1 + percent / 100;
  }

  /** What leans on a driver where the document does not say. */
  loadings(written: Loadings | undefined, driver: string, loading: number): Loadings {
    const isDeclared = this.document.drivers.some(({ id }) => id === driver);
    return written ?? (isDeclared ? { [driver]: loading } : {});
  }
}
