import type { EstimateDocument, Overhead } from "../../../src/domain/estimate-document.ts";
import type { Operation } from "../../../src/domain/operation.ts";
import { type VisitCounts, Visits } from "./departure.ts";
import { Draw } from "./draw.ts";
import type { Outcome } from "./outcome.ts";
import { PossibleFinding } from "./possible-finding.ts";
import { Quantity } from "./quantity.ts";
import { RestoredPart } from "./restored-part.ts";
import { Terms } from "./terms.ts";
import { Work } from "./work.ts";

interface Line {
  id: string;
  kind: "part" | "supplier" | "finding" | "overhead" | "whole";
}

/** A document made ready to be drawn again and again. Nothing here takes time: there is no schedule. */
export class Machine {
  readonly document: EstimateDocument;
  readonly lines: Line[];
  readonly parts: RestoredPart[];
  private readonly terms: Terms;
  private readonly findings: PossibleFinding[];
  private readonly whole: Work[][];
  private readonly overheads: Quantity[];
  private readonly extras: Quantity[];
  private readonly finished: Quantity;
  private readonly fixed: Quantity;
  private readonly sellingMonths: Quantity;
  private readonly carryingPerMonth: Quantity;

  constructor(document: EstimateDocument) {
    const { parts, suppliers, findings, overheads, wholeMachine, acquisition, value } = document;
    const { before = [], after = [] } = wholeMachine ?? {};
    const named = (kind: Line["kind"], list: { id: string }[]) => list.map(({ id }): Line => ({ id, kind }));
    const terms = new Terms(document);
    const share = ({ cost, shareOfPrice, shareOfListed, drivers }: Overhead) =>
      new Quantity(cost ?? shareOfPrice ?? shareOfListed, drivers);
    this.document = document;
    this.terms = terms;
    this.lines = [
      ...named("part", parts),
      ...named("supplier", suppliers),
      ...named("finding", findings),
      ...named("whole", [...before, ...after]),
      ...named("overhead", overheads),
    ];
    this.findings = findings.map(
      (finding) => new PossibleFinding(terms, finding, this.line("finding", finding.id)),
    );
    this.parts = parts.map((part) => {
      const own = this.findings.filter((finding) => finding.part === part.id);
      return new RestoredPart(terms, part, this.line("part", part.id), own);
    });
    this.whole = [before, after].map((list: Operation[]) => list.map((each) => new Work(terms, each, 1)));
    this.overheads = overheads.map(share);
    this.extras = (acquisition?.extras ?? []).map(share);
    this.finished = new Quantity(value?.finished, value?.drivers);
    this.fixed = new Quantity(value?.selling.fixed);
    this.sellingMonths = new Quantity(value?.selling.months);
    this.carryingPerMonth = new Quantity(document.carrying?.perMonth);
  }

  draw(random: () => number): Outcome {
    const { drivers, suppliers } = this.document;
    const draw = new Draw(
      random,
      drivers.map(({ id }) => id),
      this.lines.length,
      suppliers.length,
    );
    for (const finding of this.findings) if (finding.isPresent(draw)) draw.presentFindings.add(finding.id);
    const routes = this.parts.map((part) => part.restore(draw));
    for (const finding of this.findings) {
      if (finding.part === undefined && draw.presentFindings.has(finding.id)) finding.pay(draw);
    }
    this.performWhole(draw);
    this.chargeDepartures(draw);
    const shareOfPrice = this.payOverheads(draw);
    return { ...this.moneyOf(draw, shareOfPrice), routes };
  }

  private line(kind: Line["kind"], id: string): number {
    return this.lines.findIndex((line) => line.kind === kind && line.id === id);
  }

  private performWhole(draw: Draw): void {
    const counts: VisitCounts = new Map();
    const first = this.lines.findIndex(({ kind }) => kind === "whole");
    let position = 0;
    for (const list of this.whole) {
      const visits = new Visits(draw, counts, "whole");
      for (const work of list) {
        if (!work.isDone) visits.add(work, work.perform(draw, first + position));
        position += 1;
      }
    }
  }

  private chargeDepartures(draw: Draw): void {
    const first = this.lines.findIndex(({ kind }) => kind === "supplier");
    for (const { shop, worth } of draw.departures.values()) {
      const cash = shop.extraCash(draw, worth);
      const supplier = draw.suppliers[shop.position]!;
      supplier.cash += cash;
      supplier.departures += 1;
      draw.lines[first + shop.position]! += cash;
    }
  }

  /** @returns the overheads' share of the price */
  private payOverheads(draw: Draw): number {
    const { overheads, acquisition } = this.document;
    const listed = sum(draw.lines);
    const first = this.lines.length - overheads.length;
    let shareOfPrice = 0;
    overheads.forEach(({ cost, shareOfPrice: ofPrice }, position) => {
      const amount = this.overheads[position]!.amount(draw);
      const price = acquisition?.price ?? 0;
      if (ofPrice !== undefined) shareOfPrice += amount;
      draw.lines[first + position] =
        cost !== undefined
          ? amount * this.terms.taxFactor()
          : amount * (ofPrice !== undefined ? price : listed);
    });
    return shareOfPrice;
  }

  private moneyOf(draw: Draw, overheadShare: number): Omit<Outcome, "routes"> {
    const { acquisition, spent, labour, shop, value } = this.document;
    const price = acquisition?.price ?? 0;
    let extras = 0;
    let shareOfPrice = overheadShare;
    acquisition?.extras?.forEach((extra, position) => {
      const amount = this.extras[position]!.amount(draw);
      extras += extra.cost !== undefined ? amount : amount * price;
      if (extra.shareOfPrice !== undefined) shareOfPrice += amount;
    });
    const toGo = sum(draw.lines);
    const cash = (spent?.cash ?? 0) + (spent?.firmOrders ?? 0) + toGo;
    const ownHours = (spent?.ownHours ?? 0) + draw.ownHours;
    const ownHoursCost = shop ? 0 : ownHours * labour.ownHourValue;
    const carrying = this.carryingPerMonth.amount(draw) * this.sellingMonths.amount(draw);
    const allIn = price + extras + cash + carrying;
    const finished = this.finished.effect(draw) + draw.valueEffect;
    const proceeds = finished * (1 - (value?.selling.commission ?? 0)) - this.fixed.amount(draw);
    const gap = proceeds - allIn;
    return {
      toGo,
      cash,
      withOwnHours: cash + ownHoursCost,
      carrying,
      allIn,
      ownHours,
      shopHours: draw.shopHours,
      shareOfPrice,
      finished,
      proceeds,
      gap,
      gapWithOwnHours: gap - ownHoursCost,
      lines: draw.lines,
      suppliers: draw.suppliers,
    };
  }
}

function sum(numbers: readonly number[]): number {
  return numbers.reduce((total, each) => total + each, 0);
}
