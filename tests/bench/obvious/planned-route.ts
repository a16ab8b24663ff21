import jStat from "jstat";
import type { Outcome, Route } from "../../../src/domain/part.ts";
import { type Band, defaultWorksFor } from "../../../src/domain/vocabulary.ts";
import { type VisitCounts, Visits } from "./departure.ts";
import type { Draw } from "./draw.ts";
import { Quantity } from "./quantity.ts";
import type { Terms } from "./terms.ts";
import { Work } from "./work.ts";

interface PlannedOutcome extends Outcome {
  rework: Work[];
}

/** One way to restore a part, or to buy it. */
export class PlannedRoute {
  readonly id: string;
  readonly state: Route["state"];
  readonly worksFor: readonly Band[];
  readonly valueEffect: Quantity;
  private readonly route: Route;
  private readonly operations: Work[];
  private readonly outcomes: PlannedOutcome[];
  /** Operations paid before a bought part is judged. */
  private readonly judgedCount: number;

  constructor(terms: Terms, route: Route, quantity: number) {
    const plan = (operations: Route["operations"]) =>
      operations.map((operation) => new Work(terms, operation, quantity));
    this.id = route.id;
    this.state = route.state;
    this.worksFor = route.worksFor ?? defaultWorksFor(route.method);
    this.valueEffect = new Quantity(route.valueEffect);
    this.route = route;
    this.operations = plan(route.operations);
    const judged = this.operations.findIndex(({ id }) => id === route.purchase?.judgedAfter);
    this.judgedCount = judged < 0 ? this.operations.length : judged + 1;
    this.outcomes = (route.purchase?.outcomes ?? []).map((outcome) => ({
      ...outcome,
      rework: plan(outcome.operations ?? []),
    }));
  }

  /** Tries the route. @returns whether it worked */
  isDone(draw: Draw, line: number, counts: VisitCounts, series: "planned" | "late"): boolean {
    return this.route.purchase
      ? this.isBought(draw, line, counts, series)
      : this.isWorked(draw, line, new Visits(draw, counts, series));
  }

  private isWorked(draw: Draw, line: number, visits: Visits): boolean {
    const { failure } = this.route;
    for (const work of this.operations) {
      if (work.isDone) continue;
      visits.add(work, work.perform(draw, line));
      if (work.id === failure?.after && draw.happens(failure.probability, failure.drivers ?? {}))
        return false;
    }
    return true;
  }

  private isBought(draw: Draw, line: number, counts: VisitCounts, series: "planned" | "late"): boolean {
    const { findsPerMonth, patienceMonths = Infinity, tries = 1 } = this.route.purchase!;
    const hasBegun = this.operations.some(({ isDone }) => isDone);
    let waited = 0;
    for (let attempt = 1; attempt <= tries; attempt++) {
      if (findsPerMonth !== undefined && !(attempt === 1 && hasBegun)) {
        waited += jStat.exponential.inv(draw.random(), findsPerMonth);
        if (waited > patienceMonths) return false;
        series = "late";
      }
      if (this.isRight(draw, line, new Visits(draw, counts, series), attempt)) return true;
    }
    return false;
  }

  /** One try: paid up to where the part is judged, then as it turns out. What is done already was the first try's. */
  private isRight(draw: Draw, line: number, visits: Visits, attempt: number): boolean {
    let recoverable = 0;
    const pay = (works: Work[]) => {
      for (const work of works) {
        if (work.isDone && attempt === 1) continue;
        const bill = work.perform(draw, line);
        visits.add(work, bill);
        if (work.isPurchase) recoverable += bill.withTax;
      }
    };
    pay(this.operations.slice(0, this.judgedCount));
    const outcome = this.outcome(draw);
    if (outcome?.result === "useless") {
      draw.lines[line]! -= (outcome.recovers ?? 0) * recoverable;
      return false;
    }
    if (outcome?.result === "rework") pay(outcome.rework);
    pay(this.operations.slice(this.judgedCount));
    return true;
  }

  private outcome(draw: Draw): PlannedOutcome | undefined {
    let left = draw.random();
    return this.outcomes.find(({ probability }) => (left -= probability) < 0);
  }
}
