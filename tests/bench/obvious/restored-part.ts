import type { Part } from "../../../src/domain/part.ts";
import { bands } from "../../../src/domain/vocabulary.ts";
import type { VisitCounts } from "./departure.ts";
import type { Draw } from "./draw.ts";
import type { PossibleFinding } from "./possible-finding.ts";
import { PlannedRoute } from "./planned-route.ts";
import { Quantity } from "./quantity.ts";
import type { Terms } from "./terms.ts";

/** One part: tries its routes until one works. */
export class RestoredPart {
  readonly id: string;
  readonly routes: PlannedRoute[];
  private readonly line: number;
  private readonly part: Part;
  private readonly findings: PossibleFinding[];
  private readonly oddsLoadings: Record<string, number>;
  private readonly unresolved: Quantity;

  constructor(terms: Terms, part: Part, line: number, findings: PossibleFinding[]) {
    const { condition, ifUnresolved } = part;
    this.id = part.id;
    this.part = part;
    this.line = line;
    this.findings = findings;
    this.routes = part.routes.map((route) => new PlannedRoute(terms, route, part.quantity ?? 1));
    this.oddsLoadings = "odds" in condition ? terms.loadings(condition.drivers, "storage", 0.6) : {};
    this.unresolved = new Quantity(ifUnresolved?.valueEffect);
  }

  /** @returns id of the route that ends up on the machine, if any does */
  restore(draw: Draw): string | undefined {
    const route = this.routes.find(({ state }) => state === "fitted") ?? this.firstThatWorks(draw);
    draw.valueEffect += (route?.valueEffect ?? this.unresolved).effect(draw);
    return route?.id;
  }

  private firstThatWorks(draw: Draw): PlannedRoute | undefined {
    const band = this.band(draw);
    const present = this.findings.filter(({ id }) => draw.presentFindings.has(id));
    const counts: VisitCounts = new Map();
    let series: "planned" | "late" = "planned";
    for (const route of this.routes) {
      const isRuledOut = present.some((finding) => finding.rulesOut(route.id));
      if (route.state === "failed" || !route.worksFor.includes(band) || isRuledOut) continue;
      for (const finding of present) if (finding.isPaidOn(route.id)) finding.pay(draw);
      if (route.isDone(draw, this.line, counts, series)) return route;
      series = "late";
    }
    return undefined;
  }

  private band(draw: Draw) {
    const { condition } = this.part;
    if ("band" in condition) return condition.band;
    const leaning = draw.leaning(this.oddsLoadings);
    let sum = 0;
    const possible = bands.filter((band) => (condition.odds[band] ?? 0) > 0);
    return possible.find((band) => leaning <= (sum += condition.odds[band]!)) ?? possible.at(-1)!;
  }
}
