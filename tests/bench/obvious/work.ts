import type { Finding } from "../../../src/domain/estimate-document.ts";
import type { Operation } from "../../../src/domain/operation.ts";
import type { Draw } from "./draw.ts";
import { Quantity } from "./quantity.ts";
import type { Shop } from "./shop.ts";
import type { Terms } from "./terms.ts";

/** What a piece of work came to. */
export interface Bill {
  beforeTax: number;
  withTax: number;
}

/** An operation, or the work that a finding brings. */
export class Work {
  readonly id: string;
  readonly isDone: boolean;
  readonly isPurchase: boolean;
  readonly shop: Shop | undefined;
  /** Supplier and lot. */
  readonly place: string | undefined;
  private readonly by: "owner" | "shop" | undefined;
  private readonly times: number;
  private readonly cost: Quantity;
  private readonly hours: Quantity;
  private readonly rate: Quantity | undefined;
  private readonly benchRate: Quantity | undefined;
  private readonly taxFactor: number;

  constructor(terms: Terms, work: Operation | Finding, quantity: number) {
    const operation = "revealedAt" in work ? undefined : work;
    this.id = work.id;
    this.isDone = operation?.state === "done";
    this.isPurchase = work.trade === "parts";
    this.shop = operation?.supplier === undefined ? undefined : terms.shops.get(operation.supplier);
    this.place = this.shop && `${this.shop.id}/${operation?.lot ?? ""}`;
    this.by = work.hours === undefined ? undefined : work.by;
    this.times = operation?.per === "job" ? 1 : quantity;
    this.cost = new Quantity(work.cost, terms.loadings(work.drivers, work.trade, 0.55));
    this.hours = new Quantity(work.hours, terms.loadings(work.drivers, "pace", 0.55));
    this.rate = this.by === "shop" ? terms.rate(work.trade) : undefined;
    this.benchRate = this.by === "owner" ? terms.benchRate : undefined;
    this.taxFactor = this.shop?.taxFactor ?? terms.taxFactor();
  }

  /** Does the work once and books it on a line. */
  perform(draw: Draw, line: number): Bill {
    let beforeTax = this.cost.amount(draw) * this.times;
    const hours = this.hours.amount(draw) * this.times;
    if (this.by === "owner") draw.ownHours += hours;
    if (this.rate) {
      draw.shopHours += hours;
      beforeTax += hours * draw.once(this.rate);
    }
    const withTax = beforeTax * this.taxFactor;
    draw.lines[line]! += withTax;
    if (this.benchRate) draw.lines[line]! += hours * draw.once(this.benchRate);
    if (this.shop) draw.suppliers[this.shop.position]!.cash += withTax;
    return { beforeTax, withTax };
  }
}
