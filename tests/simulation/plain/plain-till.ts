import type { EstimateDocument, Overhead, Supplier } from "../../../src/domain/estimate-document.ts";
import type { Loadings } from "../../../src/domain/loadings.ts";
import type { Trade } from "../../../src/domain/vocabulary.ts";
import { loadingOn } from "./plain-chance.ts";
import type { Chance, Departure, Job } from "./plain-types.ts";

/** What things come to in this draw. */
export interface Till {
  /** Cost and shop labour before tax. */
  beforeTax(job: Job): number;
  /** Cost and shop labour with tax. */
  withTax(job: Job): number;
  /** All cash a job takes: with tax, and a shop's own bench hours. */
  cash(job: Job): number;
  /** A departure's top-up to the minimum, its charge and its freight, with tax. */
  departureCash(departure: Departure): number;
  /** An overhead: a cost, a share of the price, or a share of `listed`. */
  overhead(path: "overheads" | "extras", overhead: Overhead, listed: number): number;
  /** The drawn share of the price; 0 for the other kinds. */
  shareOfPrice(path: "overheads" | "extras", overhead: Overhead): number;
}

/** Opens the till of one draw. */
export function openTill(document: EstimateDocument, chance: Chance): Till {
  const supplierOf = (id: string | undefined) => document.suppliers.find((supplier) => supplier.id === id);
  const taxFactor = (supplier?: Supplier) =>
    document.reclaimsTax ? 1 : 1 + (supplier?.taxPercent ?? document.taxPercent ?? 0) / 100;
  const ratePerHour = (trade: Trade) => {
    const rate = document.labour.shopRates[trade];
    if (rate === undefined) throw new Error(`no shop rate for the trade ${trade}`);
    return chance.amount(`rates/${trade}|rate`, rate, {});
  };
  const beforeTax = (job: Job) =>
    job.cost +
    (job.work.by === "shop" && job.work.hours !== undefined
      ? job.shopHours * ratePerHour(job.work.trade)
      : 0);
  const withTax = (job: Job) => beforeTax(job) * taxFactor(supplierOf(job.work.supplier));
  const shareOfPrice: Till["shareOfPrice"] = (path, overhead) =>
    chance.amount(`${path}/${overhead.id}|cost`, overhead.shareOfPrice, overhead.drivers ?? {});

  return {
    beforeTax,
    withTax,
    cash: (job) =>
      withTax(job) +
      (document.shop ? job.ownHours * chance.amount("shop|costRate", document.shop.costRate, {}) : 0),
    departureCash: ({ supplier, lot, series, n, jobs }) => {
      const path = `suppliers/${supplier.id}/${lot}/${series}/${n}`;
      const loadings = supplierLoadings(document, supplier);
      const sum = jobs.reduce((total, job) => total + beforeTax(job), 0);
      const topUp = Math.max(0, (supplier.minimumCharge ?? 0) - sum);
      const charge = chance.amount(`${path}|charge`, supplier.batchCharge, loadings);
      const freight = chance.amount(`${path}|freight`, supplier.freightPerBatch, loadings);
      return (topUp + charge + freight) * taxFactor(supplier);
    },
    overhead: (path, overhead, listed) => {
      const key = `${path}/${overhead.id}|cost`;
      const loadings = overhead.drivers ?? {};
      if (overhead.cost !== undefined) {
        return chance.amount(key, overhead.cost, loadings) * (path === "extras" ? 1 : taxFactor());
      }
      if (overhead.shareOfPrice !== undefined) {
        return shareOfPrice(path, overhead) * (document.acquisition?.price ?? 0);
      }
      return chance.amount(key, overhead.shareOfListed, loadings) * listed;
    },
    shareOfPrice,
  };
}

/** The loadings of a supplier's lead, charge and freight. */
export function supplierLoadings(document: EstimateDocument, supplier: Supplier): Loadings {
  return supplier.drivers ?? loadingOn(document, supplier.trade, 0.55);
}
