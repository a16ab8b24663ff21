import type { Draw } from "./draw.ts";
import type { Shop } from "./shop.ts";
import type { Bill, Work } from "./work.ts";

/** One lot that goes to a supplier together. */
export interface Departure {
  shop: Shop;
  /** What its operations sum to, before tax. */
  worth: number;
}

/** How often one part has gone to each place: its n-th visit joins the n-th departure. */
export type VisitCounts = Map<string, number>;

/** The operations of one route or try: those that follow each other at one place are one visit. */
export class Visits {
  private readonly draw: Draw;
  private readonly counts: VisitCounts;
  private readonly series: "planned" | "late" | "whole";
  private place: string | undefined;
  private departure: Departure | undefined;

  constructor(draw: Draw, counts: VisitCounts, series: "planned" | "late" | "whole") {
    this.draw = draw;
    this.counts = counts;
    this.series = series;
  }

  add(work: Work, bill: Bill): void {
    if (work.place !== this.place) {
      this.place = work.place;
      this.departure = work.shop && this.nextDeparture(work.shop, work.place!);
    }
    if (this.departure) this.departure.worth += bill.beforeTax;
  }

  private nextDeparture(shop: Shop, place: string): Departure {
    const key = `${place}/${this.series}`;
    const number = (this.counts.get(key) ?? 0) + 1;
    this.counts.set(key, number);
    const known = this.draw.departures.get(`${key}/${number}`);
    if (known) return known;
    const departure = { shop, worth: 0 };
    this.draw.departures.set(`${key}/${number}`, departure);
    return departure;
  }
}
